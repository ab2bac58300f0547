package sectorglass.apple;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Random;
import java.util.zip.Deflater;

import sectorglass.testvolumes.HfsPlusMaker;

/** HFS+ volumes of every shape that the tests need. */
final class HfsVolumesMade {
    private HfsVolumesMade() {
    }

    /** Bytes that no two places share. */
    static byte[] noise(int length, int seed) {
        byte[] bytes = new byte[length];
        new Random(seed).nextBytes(bytes);
        return bytes;
    }

    static byte[] text(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    /** A volume of 4 MiB with folders, a file in twenty pieces, links, a resource fork, attributes, compressed files and a journal. */
    static HfsPlusMaker rich(String kind) {
        HfsPlusMaker maker = new HfsPlusMaker(kind, 512, 8192, 4096, "Größe");
        int docs = maker.folder(HfsPlusMaker.ROOT, "docs");
        maker.file(HfsPlusMaker.ROOT, "hello.txt", text("hello, world\n"));
        maker.file(docs, "Übung: drei", text("composed"));
        maker.pieces(2).file(docs, "pieces.bin", noise(20 * 1024 + 100, 1));
        maker.pieces(Integer.MAX_VALUE);
        maker.file(docs, "fork.txt", text("data"), noise(3000, 2), "TEXTttxt", 0, 0100644, 0);
        int links = maker.folder(HfsPlusMaker.ROOT, "\0\0\0\0HFS+ Private Data");
        maker.file(links, "iNode77", text("linked content"), new byte[0], "????????", 2, 0100644, 0);
        maker.file(docs, "first link", new byte[0], new byte[0], "hlnkhfs+", 77, 0100444, 0);
        maker.file(docs, "second link", new byte[0], new byte[0], "hlnkhfs+", 77, 0100444, 0);
        maker.file(docs, "broken link", new byte[0], new byte[0], "hlnkhfs+", 78, 0100444, 0);
        maker.file(docs, "symbolic", text("/docs/fork.txt"), new byte[0], "slnkrhap", 0, 0120755, 0);
        compressed(maker, docs);
        maker.attributeFork(docs, "org.example.long", noise(5000, 3));
        for (int i = 0; i < 120; i++) {
            maker.file(docs, String.format("file %03d with a name that fills the nodes of the catalog", i), text("content " + i));
        }
        maker.badBlock();
        maker.journal(65536, false);
        return maker;
    }

    private static void compressed(HfsPlusMaker maker, int folder) {
        int inline = maker.file(folder, "inline.z", new byte[0], new byte[0], "????????", 0, 0100644, 0x20);
        maker.attribute(inline, Decmpfs.NAME, attribute(3, text("inline ".repeat(40)), deflate(text("inline ".repeat(40)))));
        byte[] large = text("compressed in a fork, ".repeat(7000));
        int fork = maker.file(folder, "fork.z", new byte[0], resource(large), "????????", 0, 0100644, 0x20);
        maker.attribute(fork, Decmpfs.NAME, attribute(4, large, new byte[0]));
        int foreign = maker.file(folder, "foreign.z", new byte[0], new byte[0], "????????", 0, 0100644, 0x20);
        maker.attribute(foreign, Decmpfs.NAME, attribute(7, new byte[99], new byte[] {1, 2, 3}));
    }

    /** The attribute of a compressed file (apfs_compress_hdr, linux-apfs). */
    static byte[] attribute(int type, byte[] content, byte[] stored) {
        return ByteBuffer.allocate(16 + stored.length).order(java.nio.ByteOrder.LITTLE_ENDIAN).put(text("fpmc")).putInt(type)
                .putLong(content.length).put(stored).array();
    }

    static byte[] deflate(byte[] content) {
        Deflater deflater = new Deflater();
        deflater.setInput(content);
        deflater.finish();
        byte[] out = new byte[content.length + 100];
        int n = deflater.deflate(out);
        deflater.end();
        return java.util.Arrays.copyOf(out, n);
    }

    /** A resource fork of compressed blocks of 64 KiB (apfs_compress_rsrc_data, linux-apfs); the last one stands as it is. */
    static byte[] resource(byte[] content) {
        int blocks = (content.length + 65535) / 65536;
        ByteBuffer out = ByteBuffer.allocate(content.length + 4096).order(java.nio.ByteOrder.BIG_ENDIAN);
        out.putInt(0, 0x100);
        ByteBuffer table = out.duplicate().order(java.nio.ByteOrder.LITTLE_ENDIAN);
        table.putInt(0x104, blocks);
        int at = 4 + 8 * blocks;
        for (int i = 0; i < blocks; i++) {
            byte[] part = java.util.Arrays.copyOfRange(content, i * 65536, Math.min(content.length, (i + 1) * 65536));
            byte[] stored = i + 1 < blocks ? deflate(part) : ByteBuffer.allocate(1 + part.length).put((byte) 0xFF).put(part).array();
            table.putInt(0x108 + 8 * i, at).putInt(0x10C + 8 * i, stored.length);
            out.put(0x104 + at, stored);
            at += stored.length;
        }
        out.putInt(0x100, at).putInt(4, 0x104 + at).putInt(8, 4 + at).putInt(12, 50);
        return java.util.Arrays.copyOf(out.array(), 0x104 + at + 50);
    }
}
