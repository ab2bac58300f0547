package sectorglass.filetest;

import java.io.IOException;
import java.util.List;
import java.util.Set;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/** Matroska and WebM: every element down to the single block lies inside its parent and has a known id (RFC 8794, section 5; RFC 9559, section 5). */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class MatroskaFiles implements FileTest {
    private static final long SEGMENT = 0x18538067L;
    private static final long CLUSTER = 0x1F43B675L;
    private static final long GROUP = 0xA0;
    private static final long VOID = 0xEC;
    private static final long CRC = 0xBF;
    private static final Set<Long> IN_SEGMENT = Set.of(0x114D9B74L, 0x1549A966L, 0x1654AE6BL, CLUSTER, 0x1C53BB6BL, 0x1941A469L, 0x1043A770L, 0x1254C367L, VOID, CRC);
    private static final Set<Long> IN_CLUSTER = Set.of(0xE7L, 0xA7L, 0xABL, 0xA3L, GROUP, 0x5854L, 0xAFL, VOID, CRC);
    private static final Set<Long> IN_GROUP = Set.of(0xA1L, 0x9BL, 0xFBL, 0xFAL, 0x75A1L, 0xA4L, 0x75A2L, 0x8EL, 0xFDL, 0xA2L, VOID, CRC);
    private static final FileType MATROSKA = FileType.of("matroska", "Matroska / WebM", "mkv webm mka", 0, "\u001A\u0045\u00DF\u00A3");

    @Override
    public List<FileType> types() {
        return List.of(MATROSKA);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        long[] header = element(file, 0);
        boolean segment = false;
        for (long at = header[1] + header[2]; at < file.bytes();) {
            long[] top = element(file, at);
            if (top[0] == SEGMENT) {
                segment = true;
                TestResult wrong = inside(file, top[1], top[2] < 0 ? file.bytes() : top[1] + top[2], IN_SEGMENT, CLUSTER);
                if (wrong != null) {
                    return wrong;
                }
            } else if (top[0] != VOID && top[0] != CRC) {
                return TestResult.damaged("test.form", at, Long.toHexString(top[0]));
            }
            if (top[2] < 0) {
                break;
            }
            if (top[2] > file.bytes() - top[1]) {
                return TestResult.damaged("test.size", "Segment", at);
            }
            at = top[1] + top[2];
        }
        return segment ? TestResult.sound() : TestResult.damaged("test.lacks", "Segment");
    }

    private TestResult inside(TestedFile file, long from, long end, Set<Long> known, long parent) throws IOException {
        if (end > file.bytes()) {
            return TestResult.damaged("test.size", "Segment", from);
        }
        for (long at = from; at < end;) {
            file.checkTime();
            long[] one = element(file, at);
            boolean open = one[2] < 0;
            if (!known.contains(one[0]) || open && one[0] != CLUSTER) {
                return TestResult.damaged("test.form", at, Long.toHexString(one[0]));
            }
            if (!open && one[2] > end - one[1]) {
                return TestResult.damaged("test.size", Long.toHexString(one[0]), at);
            }
            if (one[0] == parent && !open) {
                TestResult wrong = inside(file, one[1], one[1] + one[2], parent == CLUSTER ? IN_CLUSTER : IN_GROUP, GROUP);
                if (wrong != null) {
                    return wrong;
                }
            }
            at = open ? one[1] : one[1] + one[2];
        }
        return null;
    }

    /** Id, first byte of the content, size of the content or -1 where it is not known. */
    private static long[] element(TestedFile file, long at) throws IOException {
        int first = (int) file.big(at, 1);
        int idLength = Integer.numberOfLeadingZeros(first) - 23;
        if (first == 0 || idLength > 4) {
            throw new IOException("no element at byte " + at);
        }
        long id = file.big(at, idLength);
        int size = (int) file.big(at + idLength, 1);
        int sizeLength = Integer.numberOfLeadingZeros(size) - 23;
        if (size == 0) {
            throw new IOException("no size at byte " + (at + idLength));
        }
        long mask = (1L << 7 * sizeLength) - 1;
        long length = file.big(at + idLength, sizeLength) & mask;
        return new long[] {id, at + idLength + sizeLength, length == mask ? -1 : length};
    }
}
