package sectorglass.filetest;

import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/** Ogg: every page follows the last one, carries the next number and the right checksum (RFC 3533, section 6). */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class OggFiles implements FileTest {
    private static final int POLYNOMIAL = 0x04C11DB7;
    private static final int[] TABLE = new int[256];
    private static final int MOST_STREAMS = 1000;
    private static final FileType OGG = FileType.of("ogg", "Ogg", "ogg oga ogv opus", 0, "OggS");

    static {
        for (int i = 0; i < 256; i++) {
            int value = i << 24;
            for (int bit = 0; bit < 8; bit++) {
                value = value < 0 ? value << 1 ^ POLYNOMIAL : value << 1;
            }
            TABLE[i] = value;
        }
    }

    @Override
    public List<FileType> types() {
        return List.of(OGG);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        Map<Long, Long> numbers = new HashMap<>();
        Map<Long, Boolean> ended = new HashMap<>();
        for (long at = 0; at < file.bytes();) {
            if (!file.text(at, 4).equals("OggS")) {
                return TestResult.damaged("test.form", at, "no page");
            }
            int segments = (int) file.big(at + 26, 1);
            int length = 27 + segments;
            for (byte lace : file.bytes(at + 27, segments)) {
                length += lace & 0xFF;
            }
            byte[] page = file.bytes(at, length);
            long stored = file.little(at + 22, 4);
            java.util.Arrays.fill(page, 22, 26, (byte) 0);
            int crc = 0;
            for (byte b : page) {
                crc = crc << 8 ^ TABLE[crc >>> 24 ^ b & 0xFF];
            }
            if ((crc & 0xFFFFFFFFL) != stored) {
                return TestResult.damaged("test.chunk", "page", at);
            }
            long stream = file.little(at + 14, 4);
            long number = file.little(at + 18, 4);
            Long before = numbers.put(stream, number);
            if (before != null && number != before + 1 || numbers.size() > MOST_STREAMS) {
                return TestResult.damaged("test.form", at, "page " + number);
            }
            ended.put(stream, (page[5] & 4) != 0);
            at += length;
        }
        return ended.containsValue(false) ? TestResult.damaged("test.end") : TestResult.opened();
    }
}
