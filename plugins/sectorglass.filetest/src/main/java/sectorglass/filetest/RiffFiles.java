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
 * WAVE and AVI: every chunk lies inside its list, the format makes sense, every entry of an index points to its chunk ("Multimedia Programming
 * Interface and Data Specifications 1.0", IBM and Microsoft, 1991).
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class RiffFiles implements FileTest {
    private static final int DEEPEST = 8;
    private static final FileType WAVE = new FileType("wave", "WAVE", List.of("wav"), head -> FileType.has(head, 0, "RIFF") && FileType.has(head, 8, "WAVE"));
    private static final FileType AVI = new FileType("avi", "AVI", List.of("avi"), head -> FileType.has(head, 0, "RIFF") && FileType.has(head, 8, "AVI "));

    @Override
    public List<FileType> types() {
        return List.of(WAVE, AVI);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        Walk walk = new Walk(file);
        for (long at = 0; at < file.bytes();) {
            if (file.bytes() - at < 12) {
                return TestResult.damaged("test.form", at, "cut off");
            }
            long size = file.little(at + 4, 4);
            if (!file.text(at, 4).equals("RIFF") || size < 4 || size > file.bytes() - at - 8) {
                return TestResult.damaged("test.size", "RIFF", at);
            }
            TestResult wrong = walk.chunks(at + 12, at + 8 + size, 0);
            if (wrong != null) {
                return wrong;
            }
            at += 8 + size + (size & 1);
        }
        String lacks = type == WAVE ? !walk.format ? "fmt" : !walk.data ? "data" : null : walk.movie < 0 ? "movi" : null;
        return lacks == null ? TestResult.sound() : TestResult.damaged("test.lacks", lacks);
    }

    private static final class Walk {
        private final TestedFile file;
        private boolean format;
        private boolean data;
        private long movie = -1;

        Walk(TestedFile file) {
            this.file = file;
        }

        TestResult chunks(long from, long end, int depth) throws IOException {
            for (long at = from; at < end;) {
                file.checkTime();
                if (end - at < 8) {
                    return end - at == 1 ? null : TestResult.damaged("test.form", at, "cut off");
                }
                String kind = file.text(at, 4);
                long size = file.little(at + 4, 4);
                if (!kind.matches("[\\x20-\\x7E]{4}") || size > end - at - 8) {
                    return TestResult.damaged("test.size", kind, at);
                }
                TestResult wrong = null;
                if (kind.equals("LIST") && size >= 4 && depth < DEEPEST) {
                    boolean movi = file.text(at + 8, 4).equals("movi");
                    movie = movi && movie < 0 ? at + 8 : movie;
                    wrong = chunks(at + 12, at + 8 + size, depth + 1);
                } else if (kind.equals("fmt ")) {
                    format = true;
                    wrong = format(at + 8, size);
                } else if (kind.equals("idx1")) {
                    wrong = index(at + 8, size);
                }
                data |= kind.equals("data");
                if (wrong != null) {
                    return wrong;
                }
                at += 8 + size + (size & 1);
            }
            return null;
        }

        private TestResult format(long at, long size) throws IOException {
            if (size < 14) {
                return TestResult.damaged("test.size", "fmt", at);
            }
            long channels = file.little(at + 2, 2);
            long rate = file.little(at + 4, 4);
            long perSecond = file.little(at + 8, 4);
            long align = file.little(at + 12, 2);
            boolean pcm = file.little(at, 2) == 1;
            boolean sense = channels > 0 && rate > 0 && align > 0 && (!pcm || perSecond == rate * align);
            return sense ? null : TestResult.damaged("test.table", "fmt", channels + ", " + rate + ", " + perSecond + ", " + align);
        }

        private TestResult index(long at, long size) throws IOException {
            long base = -1;
            for (long i = 0; i + 16 <= size; i += 16) {
                String kind = file.text(at + i, 4);
                long place = file.little(at + i + 8, 4);
                if (base < 0) {
                    base = movie >= 0 && place < movie ? movie : 0;
                }
                if (base + place > file.bytes() - 8 || !file.text(base + place, 4).equals(kind)
                        || file.little(base + place + 4, 4) != file.little(at + i + 12, 4)) {
                    return TestResult.damaged("test.table", "idx1", String.valueOf(i / 16));
                }
            }
            return null;
        }
    }
}
