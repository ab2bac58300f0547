package sectorglass.filetest;

import java.io.IOException;
import java.util.List;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * FLAC: metadata blocks one after the other, then frames to the end, each with the right checksums of its header (CRC-8) and of all its bytes
 * (CRC-16), numbered without a gap, their samples as many as the first block says (RFC 9639, sections 8 and 9). The samples themselves are not
 * decoded: the length of a frame stands nowhere, so it ends where its checksum holds and another frame or the end of the file follows.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class FlacFiles implements FileTest {
    /** More than a frame of 65,535 samples in eight channels of 32 bits can take. */
    private static final int LONGEST = 4 << 20;
    private static final int HEADER = 16;
    private static final int[] CRC8 = table(8, 0x07);
    private static final int[] CRC16 = table(16, 0x8005);
    private static final FileType FLAC = FileType.of("flac", "FLAC", "flac", 0, "fLaC");

    private static int[] table(int bits, int polynomial) {
        int[] table = new int[256];
        for (int i = 0; i < 256; i++) {
            int value = i << bits - 8;
            for (int bit = 0; bit < 8; bit++) {
                value = (value << 1 ^ ((value >> bits - 1 & 1) != 0 ? polynomial : 0)) & (1 << bits) - 1;
            }
            table[i] = value;
        }
        return table;
    }

    /** The header of a frame: its length in bytes, the number of frame or first sample, its samples. */
    private record Header(int length, long number, long samples, boolean numbersSamples) { }

    @Override
    public List<FileType> types() {
        return List.of(FLAC);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        long at = 4;
        long total = file.big(at + 4 + 13, 5) & 0xFFFFFFFFFL;
        if (file.big(at, 1) % 128 != 0 || file.big(at + 1, 3) != 34) {
            return TestResult.damaged("test.form", at, "no stream information");
        }
        for (boolean last = false; !last;) {
            long length = file.big(at + 1, 3);
            last = file.big(at, 1) >= 128;
            if (file.big(at, 1) % 128 == 127 || length > file.bytes() - at - 4) {
                return TestResult.damaged("test.size", "metadata", at);
            }
            at += 4 + length;
        }
        long samples = 0;
        for (long frame = 0; at < file.bytes(); frame++) {
            file.checkTime();
            Header header = header(file, at);
            if (header == null || header.number != (header.numbersSamples ? samples : frame)) {
                return TestResult.damaged("test.form", at, "no frame " + frame);
            }
            long end = end(file, at);
            if (end < 0) {
                return TestResult.damaged("test.chunk", "frame " + frame, at);
            }
            samples += header.samples;
            at = end;
        }
        return total != 0 && samples != total ? TestResult.damaged("test.end") : TestResult.opened();
    }

    /** Where the frame that begins here ends, or -1: its checksum taken over itself is zero. */
    private static long end(TestedFile file, long start) throws IOException {
        byte[] some = new byte[1 << 14];
        int crc = 0;
        long most = Math.min(file.bytes(), start + LONGEST);
        for (long at = start; at < most;) {
            int n = (int) Math.min(some.length, most - at);
            file.read(at, some, 0, n);
            for (int i = 0; i < n; i++) {
                crc = (crc << 8 ^ CRC16[crc >> 8 ^ some[i] & 0xFF]) & 0xFFFF;
                long next = at + i + 1;
                if (crc == 0 && next > start + 8 && (next == file.bytes() || header(file, next) != null)) {
                    return next;
                }
            }
            at += n;
        }
        return -1;
    }

    /** The header here, or null where there is none. */
    private static Header header(TestedFile file, long at) throws IOException {
        if (at > file.bytes() - 6) {
            return null;
        }
        byte[] head = file.bytes(at, (int) Math.min(HEADER, file.bytes() - at));
        int sizeCode = head[2] >> 4 & 15;
        int rateCode = head[2] & 15;
        if ((head[0] & 0xFF) != 0xFF || (head[1] & 0xFE) != 0xF8 || sizeCode == 0 || rateCode == 15 || (head[3] >> 4 & 15) > 10 || (head[3] & 1) != 0) {
            return null;
        }
        int first = head[4] & 0xFF;
        int more = first < 0x80 ? 0 : Integer.numberOfLeadingZeros(~(first << 24)) - 1;
        if (more == 0 && first >= 0x80 || more > 6) {
            return null;
        }
        int rest = 5 + more + (sizeCode == 6 ? 1 : sizeCode == 7 ? 2 : 0) + (rateCode == 12 ? 1 : rateCode > 12 ? 2 : 0);
        if (rest >= head.length) {
            return null;
        }
        long number = more == 0 ? first : first & (1 << 6 - more) - 1;
        for (int i = 0; i < more; i++) {
            number = number << 6 | head[5 + i] & 0x3F;
        }
        int crc = 0;
        for (int i = 0; i < rest; i++) {
            crc = CRC8[crc ^ head[i] & 0xFF];
        }
        if (crc != (head[rest] & 0xFF)) {
            return null;
        }
        int given = 5 + more;
        long samples = sizeCode == 1 ? 192 : sizeCode < 6 ? 144L << sizeCode : sizeCode == 6 ? (head[given] & 0xFF) + 1
                : sizeCode == 7 ? ((head[given] & 0xFF) << 8 | head[given + 1] & 0xFF) + 1 : 1L << sizeCode;
        return new Header(rest + 1, number, samples, (head[1] & 1) != 0);
    }
}
