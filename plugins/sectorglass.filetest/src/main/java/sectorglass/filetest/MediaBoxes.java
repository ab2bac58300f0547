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

/**
 * Video, sound and pictures in boxes (ISO/IEC 14496-12, sections 4.2 and 8): every box lies inside its parent, the tables of each track agree,
 * every sample lies inside the media data; where samples are made of units with a length (ISO/IEC 14496-15), the units fill them.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class MediaBoxes implements FileTest {
    private static final int DEEPEST = 12;
    private static final int MOST_BOXES = 1_000_000;
    private static final Set<String> PARENTS = Set.of("moov", "trak", "mdia", "minf", "stbl", "edts", "dinf", "mvex", "moof", "traf", "udta", "meta", "iprp", "ipco");
    private static final Set<String> AT_TOP = Set.of("ftyp", "moov", "mdat", "free", "skip", "wide", "meta", "moof", "mfra", "uuid", "sidx", "styp", "pdin",
            "pnot", "prft", "emsg", "ssix", "udta", "PICT", "junk", "idat");

    private static final FileType HEIF = new FileType("heif", "HEIF", List.of("heic", "heif", "avif"), head -> FileType.has(head, 4, "ftyp")
            && (FileType.has(head, 8, "heic") || FileType.has(head, 8, "heix") || FileType.has(head, 8, "mif1") || FileType.has(head, 8, "avif")));
    private static final FileType CR3 = new FileType("cr3", "camera file in boxes", List.of("cr3"), head -> FileType.has(head, 4, "ftypcrx "));
    private static final FileType MP4 = new FileType("mp4", "MP4 / QuickTime", List.of("mp4", "m4v", "mov", "m4a", "3gp"), head -> FileType.has(head, 4, "ftyp")
            || FileType.has(head, 4, "moov") || FileType.has(head, 4, "mdat") || FileType.has(head, 4, "wide"));

    @Override
    public List<FileType> types() {
        return List.of(HEIF, CR3, MP4);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        Walk walk = new Walk(file);
        TestResult wrong = walk.boxes(0, file.bytes(), 0);
        if (wrong != null) {
            return wrong;
        }
        if (!walk.index && type != HEIF) {
            return TestResult.damaged("test.lacks", "moov");
        }
        return TestResult.sound();
    }

    private static final class Walk {
        private final TestedFile file;
        private int count;
        private boolean index;

        Walk(TestedFile file) {
            this.file = file;
        }

        TestResult boxes(long from, long end, int depth) throws IOException {
            for (long at = from; at < end;) {
                file.checkTime();
                if (depth > DEEPEST || ++count > MOST_BOXES) {
                    return TestResult.damaged("test.form", at, "too many boxes");
                }
                if (end - at < 8) {
                    return depth > 0 && end - at == 4 && file.big(at, 4) == 0 ? null : TestResult.damaged("test.form", at, "cut off");
                }
                long size = file.big(at, 4);
                String kind = file.text(at + 4, 4);
                int header = 8;
                if (size == 1) {
                    size = file.big(at + 8, 8);
                    header = 16;
                } else if (size == 0 && depth == 0) {
                    size = end - at;
                }
                if (size < header || size > end - at) {
                    return TestResult.damaged("test.size", kind, at);
                }
                if (depth == 0 && !AT_TOP.contains(kind) || !kind.matches("[\\x20-\\x7E\\xA9]{4}")) {
                    return TestResult.damaged("test.form", at, "\"" + kind + "\"");
                }
                index |= kind.equals("moov");
                TestResult wrong = null;
                if (kind.equals("stbl")) {
                    wrong = new SampleTables(file, at + header, at + size).test();
                } else if (PARENTS.contains(kind)) {
                    boolean full = kind.equals("meta") && size >= header + 12 && !file.text(at + header + 4, 4).equals("hdlr");
                    wrong = boxes(at + header + (full ? 4 : 0), at + size, depth + 1);
                } else if (kind.equals("iloc")) {
                    wrong = ItemPlaces.test(file, at + header, at + size);
                }
                if (wrong != null) {
                    return wrong;
                }
                at += size;
            }
            return null;
        }
    }
}
