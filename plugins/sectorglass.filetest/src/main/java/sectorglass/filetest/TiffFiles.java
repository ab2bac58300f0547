package sectorglass.filetest;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;

import javax.imageio.ImageIO;
import javax.imageio.ImageReader;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * TIFF files and the camera files built like them: every directory, and every piece of a picture that it names, must lie inside the file (TIFF
 * 6.0, sections 2 and 15). Pictures whose names end like TIFF files are also decoded.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class TiffFiles implements FileTest {
    private static final int MOST_DIRECTORIES = 1000;
    private static final int[] SIZES = {0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4};
    private static final int WIDTH = 256;
    private static final int LENGTH = 257;
    private static final int STRIPS = 273;
    private static final int STRIP_BYTES = 279;
    private static final int TILE_WIDTH = 322;
    private static final int TILE_LENGTH = 323;
    private static final int TILES = 324;
    private static final int TILE_BYTES = 325;
    private static final int SUB_DIRECTORIES = 330;
    private static final int EXIF = 34665;
    private static final long LARGEST_TILE = 64_000_000;

    private static final FileType TIFF = new FileType("tiff", "TIFF", List.of("tif", "tiff"),
            head -> (FileType.has(head, 0, "II*\0") || FileType.has(head, 0, "MM\0*")));
    private static final FileType RAW = new FileType("camera-raw", "camera file built like TIFF",
            List.of("dng", "nef", "nrw", "cr2", "arw", "srf", "sr2", "pef", "iiq", "3fr", "tif"), head -> false);

    @Override
    public List<FileType> types() {
        return List.of(TIFF, RAW);
    }

    private record Field(int type, long count, long at) { }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        boolean little = file.text(0, 1).equals("I");
        Deque<Long> open = new ArrayDeque<>();
        Set<Long> seen = new HashSet<>();
        open.add(number(file, little, 4, 4));
        boolean large = false;
        while (!open.isEmpty()) {
            long at = open.remove();
            if (!seen.add(at) || seen.size() > MOST_DIRECTORIES) {
                return TestResult.damaged("test.form", at, "directory loop");
            }
            long entries = number(file, little, at, 2);
            if (entries == 0) {
                return TestResult.damaged("test.form", at, "empty directory");
            }
            Map<Integer, Field> fields = new HashMap<>();
            int before = -1;
            for (int i = 0; i < entries; i++) {
                long entry = at + 2 + 12L * i;
                int tag = (int) number(file, little, entry, 2);
                int kind = (int) number(file, little, entry + 2, 2);
                long count = number(file, little, entry + 4, 4);
                if (tag <= before && i > 0 && tag == 0 || kind < 1 || kind >= SIZES.length) {
                    return TestResult.damaged("test.form", entry, "tag " + tag + ", type " + kind);
                }
                before = tag;
                long bytes = count * SIZES[kind];
                long place = bytes <= 4 ? entry + 8 : number(file, little, entry + 8, 4);
                if (place > file.bytes() - bytes) {
                    return TestResult.damaged("test.size", "tag " + tag, entry);
                }
                fields.put(tag, new Field(kind, count, place));
            }
            TestResult pieces = pieces(file, little, fields, STRIPS, STRIP_BYTES);
            pieces = pieces != null ? pieces : pieces(file, little, fields, TILES, TILE_BYTES);
            if (pieces != null) {
                return pieces;
            }
            large |= fields.containsKey(TILE_WIDTH) && value(file, little, fields.get(TILE_WIDTH), 0)
                    * (fields.containsKey(TILE_LENGTH) ? value(file, little, fields.get(TILE_LENGTH), 0) : 1) > LARGEST_TILE;
            large |= fields.containsKey(WIDTH) && fields.containsKey(LENGTH) && value(file, little, fields.get(WIDTH), 0) > 200_000;
            for (int link : new int[] {SUB_DIRECTORIES, EXIF}) {
                Field field = fields.get(link);
                for (int i = 0; field != null && i < Math.min(64, field.count()); i++) {
                    open.add(value(file, little, field, i));
                }
            }
            long next = number(file, little, at + 2 + 12 * entries, 4);
            if (next != 0) {
                open.add(next);
            }
        }
        String name = file.name().toLowerCase(java.util.Locale.ROOT);
        if (!large && (name.endsWith(".tif") || name.endsWith(".tiff"))) {
            Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName("tiff");
            if (readers.hasNext()) {
                TestResult decoded = ImageFiles.decode(readers.next(), file, 1L << 28);
                return decoded.answer() == TestResult.Answer.OPENED ? TestResult.sound() : decoded;
            }
        }
        return TestResult.sound();
    }

    private static TestResult pieces(TestedFile file, boolean little, Map<Integer, Field> fields, int where, int lengths) throws IOException {
        Field places = fields.get(where);
        Field sizes = fields.get(lengths);
        if (places == null && sizes == null) {
            return null;
        }
        if (places == null || sizes == null || places.count() != sizes.count()) {
            return TestResult.damaged("test.table", where + " / " + lengths, "counts differ");
        }
        for (long i = 0; i < places.count(); i++) {
            if ((i & 0xFFF) == 0) {
                file.checkTime();
            }
            long at = value(file, little, places, i);
            if (at > file.bytes() - value(file, little, sizes, i) || at == 0) {
                return TestResult.damaged("test.size", "strip or tile " + i, at);
            }
        }
        return null;
    }

    private static long value(TestedFile file, boolean little, Field field, long index) throws IOException {
        int size = SIZES[field.type()];
        return number(file, little, field.at() + index * size, Math.min(size, 4));
    }

    private static long number(TestedFile file, boolean little, long at, int length) throws IOException {
        return little ? file.little(at, length) : file.big(at, length);
    }
}
