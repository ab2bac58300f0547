package sectorglass.partition.gpt;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.zip.CRC32;

import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.image.Window;

/**
 * A copy of a GPT with invented names and, if wanted, identities. A checksum that held holds again, one that did not differs by the same bits as before.
 */
final class GptCopy {
    private final CopyTarget to;
    private final Disguise disguise;

    GptCopy(CopyTarget to, Disguise disguise) {
        this.to = to;
        this.disguise = disguise;
    }

    void copy(GptHeader header) {
        byte[] bytes = header.sector().raw(0, header.sector().length());
        if (header.found() && header.entries().readable() && header.entries().lba() > 0) {
            entries(header, bytes);
        }
        if (header.found() && header.sizeLegal()) {
            if (disguise.numbers()) {
                identity(bytes, GptHeader.DISK_GUID);
            }
            int wrong = (int) (header.storedCrc() ^ header.computedCrc());
            ByteBuffer b = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
            b.putInt(GptHeader.CRC, 0);
            b.putInt(GptHeader.CRC, crc(bytes, (int) header.headerSize()) ^ wrong);
        }
        to.put(header.sector(), bytes);
    }

    private static int crc(byte[] bytes, int length) {
        CRC32 crc = new CRC32();
        crc.update(bytes, 0, length);
        return (int) crc.getValue();
    }

    private void entries(GptHeader header, byte[] head) {
        GptEntries array = header.entries();
        int size = to.source().sectorSize();
        int length = (int) array.bytes();
        Window w = to.source().window(array.firstByte(), (length + size - 1) / size * size);
        byte[] bytes = w.raw(0, w.length());
        int before = crc(bytes, length);
        for (int at = 0; at + GptEntry.FIELDS <= length; at += (int) array.size()) {
            entry(bytes, at, (int) array.size());
        }
        Arrays.fill(bytes, length, bytes.length, (byte) 0);
        if (w.isRead(0, length)) {
            ByteBuffer b = ByteBuffer.wrap(head).order(ByteOrder.LITTLE_ENDIAN);
            b.putInt(GptHeader.ENTRIES_CRC, b.getInt(GptHeader.ENTRIES_CRC) ^ before ^ crc(bytes, length));
        }
        to.put(w, bytes);
    }

    /**
     * Names unit by unit, what stands behind a terminator, too. The same bits change at the same place of both copies, so that what differed differs still,
     * and checksums, which are sums of bits, move alike.
     */
    private void entry(byte[] bytes, int at, int size) {
        for (int i = 0; i < GptEntry.NAME_UNITS; i++) {
            int unit = at + GptEntry.NAME + 2 * i;
            if (bytes[unit] != 0 || bytes[unit + 1] != 0) {
                int mask = 1 + (int) Math.floorMod(disguise.random(at * 64L + i), 31L);
                bytes[unit] ^= (byte) (bytes[unit + 1] == 0 ? mask : mask * 8);
            }
        }
        if (disguise.numbers()) {
            identity(bytes, at + GptEntry.UNIQUE);
        }
        for (int i = at + GptEntry.FIELDS; i < at + size; i++) {
            bytes[i] = (byte) (bytes[i] == 0 ? 0 : 0x58);
        }
    }

    /** The same bits of equal identities change, so equal ones stay equal and zero stays zero. */
    private void identity(byte[] bytes, int at) {
        boolean zero = true;
        for (int i = 0; i < 16; i++) {
            zero &= bytes[at + i] == 0;
        }
        for (int i = 0; i < 16 && !zero; i++) {
            bytes[at + i] ^= (byte) (disguise.random(i < 8 ? 1 : 2) >>> 8 * (i % 8));
        }
    }
}
