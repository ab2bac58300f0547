package sectorglass.make.content;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32;

import sectorglass.make.write.Block;

/** A ZIP archive (ISO/IEC 21320-1) of an exact size with two stored members: a text and bytes without a pattern. */
final class StoredZip {
    private static final String[] NAMES = {"notes.txt", "data.bin"};
    private static final int FRAME = 2 * (30 + 46) + 2 * (9 + 8) + 22;
    /** 2025-03-01 12:00 as FAT packs it. */
    private static final long DATE = 0x5A616000L;

    private StoredZip() {
    }

    static byte[] of(int bytes, long seed) {
        int text = (bytes - FRAME) / 2;
        byte[][] members = {new byte[text], new byte[bytes - FRAME - text]};
        new NumberedLines(seed).next(members[0], 0, text);
        try {
            FileContent.random(members[1].length, seed).readNBytes(members[1], 0, members[1].length);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Block out = new Block(bytes);
        int at = 0;
        int[] offsets = new int[2];
        for (int i = 0; i < 2; i++) {
            offsets[i] = at;
            out.u32(at, 0x04034B50);
            common(out, at + 4, members[i], NAMES[i]);
            out.put(at + 30, NAMES[i].getBytes(StandardCharsets.US_ASCII));
            at += 30 + NAMES[i].length();
            out.put(at, members[i]);
            at += members[i].length;
        }
        int directory = at;
        for (int i = 0; i < 2; i++) {
            out.u32(at, 0x02014B50).u16(at + 4, 20);
            common(out, at + 6, members[i], NAMES[i]);
            out.u32(at + 42, offsets[i]).put(at + 46, NAMES[i].getBytes(StandardCharsets.US_ASCII));
            at += 46 + NAMES[i].length();
        }
        out.u32(at, 0x06054B50).u16(at + 8, 2).u16(at + 10, 2).u32(at + 12, at - directory).u32(at + 16, directory);
        return out.bytes();
    }

    private static void common(Block out, int at, byte[] member, String name) {
        CRC32 crc = new CRC32();
        crc.update(member);
        out.u16(at, 20).u32(at + 6, DATE).u32(at + 10, crc.getValue()).u32(at + 14, member.length).u32(at + 18, member.length);
        out.u16(at + 22, name.length());
    }
}
