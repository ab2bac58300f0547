package sectorglass.filetest;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.Random;

/**
 * A mail store (PST) as [MS-PST] describes it (sections 2.2.2.6 to 2.2.2.8, from memory): header, allocation map, a tree of blocks of two levels, a
 * tree of nodes, blocks of random bytes. It holds no mail that a program could show.
 */
final class PstSample {
    private static final int BLOCKS = 40;
    private static final int BLOCK_BYTES = 3000;
    private static final int PER_LEAF = 20;

    private final ByteBuffer to = ByteBuffer.allocate(0x4600 + 4 * 512 + BLOCKS * 3072 + 512).order(ByteOrder.LITTLE_ENDIAN);
    private final Random random;

    private PstSample(Random random) {
        this.random = random;
    }

    static byte[] make(Random random) {
        return new PstSample(random).make();
    }

    private byte[] make() {
        int first = 0x4600 + 4 * 512;
        for (int i = 0; i < BLOCKS; i++) {
            int at = first + i * 3072;
            byte[] content = new byte[BLOCK_BYTES];
            random.nextBytes(content);
            to.put(at, content);
            to.putShort(at + 3056, (short) BLOCK_BYTES).putShort(at + 3058, signature(at, bid(i))).putInt(at + 3060, crc(at, BLOCK_BYTES)).putLong(at + 3064, bid(i));
        }
        int leaves = BLOCKS / PER_LEAF;
        for (int leaf = 0; leaf < leaves; leaf++) {
            int at = 0x4600 + leaf * 512;
            for (int i = 0; i < PER_LEAF; i++) {
                int index = leaf * PER_LEAF + i;
                to.putLong(at + i * 24, bid(index)).putLong(at + i * 24 + 8, first + index * 3072L).putShort(at + i * 24 + 16, (short) BLOCK_BYTES).putShort(at + i * 24 + 18, (short) 2);
            }
            tree(at, 1000 + leaf, 0x80, PER_LEAF, 24, 0);
        }
        int root = 0x4600 + leaves * 512;
        for (int leaf = 0; leaf < leaves; leaf++) {
            to.putLong(root + leaf * 24, bid(leaf * PER_LEAF)).putLong(root + leaf * 24 + 8, 1000 + leaf).putLong(root + leaf * 24 + 16, 0x4600 + leaf * 512L);
        }
        tree(root, 1100, 0x80, leaves, 24, 1);
        int nodes = root + 512;
        for (int i = 0; i < 15; i++) {
            to.putLong(nodes + i * 32, 0x21 + 0x20L * i).putLong(nodes + i * 32 + 8, bid(i)).putLong(nodes + i * 32 + 16, i % 3 == 0 ? 0 : bid(i + 20));
        }
        tree(nodes, 1101, 0x81, 15, 32, 0);
        byte[] taken = new byte[496];
        Arrays.fill(taken, 0, to.capacity() / 512, (byte) 0xFF);
        to.put(0x4400, taken);
        trailer(0x4400, 0x4400, 0x84, (short) 0);
        header(nodes, root);
        return to.array();
    }

    private static long bid(int index) {
        return 4L * (index + 1);
    }

    private void tree(int at, long number, int type, int entries, int size, int level) {
        to.put(at + 488, (byte) entries).put(at + 489, (byte) (488 / size)).put(at + 490, (byte) size).put(at + 491, (byte) level);
        trailer(at, number, type, signature(at, number));
    }

    private void trailer(int at, long number, int type, short signature) {
        to.put(at + 496, (byte) type).put(at + 497, (byte) type).putShort(at + 498, signature).putInt(at + 500, crc(at, 496)).putLong(at + 504, number);
    }

    private void header(int nodes, int blocks) {
        to.put(0, "!BDN".getBytes(java.nio.charset.StandardCharsets.US_ASCII)).putShort(8, (short) 0x4D53).putShort(10, (short) 23).putShort(12, (short) 19)
                .put(14, (byte) 1).put(15, (byte) 1);
        to.putLong(184, to.capacity()).putLong(192, 0x4400).putLong(216, 1101).putLong(224, nodes).putLong(232, 1100).putLong(240, blocks).put(248, (byte) 2);
        to.put(512, (byte) 0x80).put(513, (byte) 1).putLong(516, 0x2000);
        to.putInt(4, crc(8, 471));
        to.putInt(524, crc(8, 516));
    }

    private static short signature(long at, long number) {
        long both = at ^ number;
        return (short) (both >> 16 ^ both);
    }

    /** Bit by bit, unlike the test's table. */
    private int crc(int at, int length) {
        int crc = 0;
        for (int i = 0; i < length; i++) {
            crc ^= to.get(at + i) & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) == 0 ? crc >>> 1 : crc >>> 1 ^ 0xEDB88320;
            }
        }
        return crc;
    }
}
