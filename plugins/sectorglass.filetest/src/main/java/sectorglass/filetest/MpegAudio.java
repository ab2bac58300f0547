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
 * MPEG audio, layer III: from the first frame to the last, each begins where the one before ends, with the same version and rate (ISO/IEC 11172-3,
 * section 2.4.1.3). Frames carry no checksum in most files.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class MpegAudio implements FileTest {
    private static final int[] RATES_1 = {0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320};
    private static final int[] RATES_2 = {0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160};
    private static final int[] HERTZ = {44100, 48000, 32000};
    private static final FileType MP3 = new FileType("mp3", "MPEG audio layer III", List.of("mp3"), MpegAudio::begins);

    private static boolean begins(byte[] head) {
        if (FileType.has(head, 0, "ID3")) {
            return true;
        }
        int first = head.length < 4 ? 0 : frame((head[0] & 0xFFL) << 24 | (head[1] & 0xFF) << 16 | (head[2] & 0xFF) << 8 | head[3] & 0xFF);
        return first > 0 && head.length > first + 1 && (head[first] & 0xFF) == 0xFF && (head[first + 1] & 0xE0) == 0xE0;
    }

    @Override
    public List<FileType> types() {
        return List.of(MP3);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        long at = 0;
        while (at + 10 < file.bytes() && file.text(at, 3).equals("ID3")) {
            byte[] size = file.bytes(at + 6, 4);
            at += 10 + ((size[0] & 127) << 21 | (size[1] & 127) << 14 | (size[2] & 127) << 7 | size[3] & 127) + ((file.big(at + 5, 1) & 16) != 0 ? 10 : 0);
        }
        while (at < file.bytes() && file.big(at, 1) == 0) {
            at++;
        }
        long frames = 0;
        long kind = -1;
        while (at + 4 <= file.bytes()) {
            long header = file.big(at, 4);
            int length = frame(header);
            if (length == 0) {
                String tag = file.text(at, 3);
                boolean tags = tag.equals("TAG") && file.bytes() - at == 128 || tag.equals("APE") || tag.equals("LYR") || tag.equals("ID3");
                return frames > 0 && tags ? TestResult.sound() : TestResult.damaged("test.form", at, "frame " + frames);
            }
            kind = kind < 0 ? header >> 10 & 0x7FF03 : kind;
            if (kind != (header >> 10 & 0x7FF03)) {
                return TestResult.damaged("test.form", at, "frame " + frames);
            }
            if (length > file.bytes() - at) {
                return TestResult.damaged("test.end");
            }
            at += length;
            frames++;
        }
        return frames > 0 ? TestResult.sound() : TestResult.damaged("test.end");
    }

    /** Length of the frame with this header, or 0 where it is none of layer III. */
    private static int frame(long header) {
        int version = (int) (header >> 19 & 3);
        int rate = (int) (header >> 12 & 15);
        int hertz = (int) (header >> 10 & 3);
        if (header >> 21 != 0x7FF || version == 1 || (header >> 17 & 3) != 1 || rate == 0 || rate == 15 || hertz == 3) {
            return 0;
        }
        int perSecond = HERTZ[hertz] >> (version == 3 ? 0 : version == 2 ? 1 : 2);
        int bits = (version == 3 ? RATES_1[rate] : RATES_2[rate]) * 1000;
        return (version == 3 ? 144 : 72) * bits / perSecond + (int) (header >> 9 & 1);
    }
}
