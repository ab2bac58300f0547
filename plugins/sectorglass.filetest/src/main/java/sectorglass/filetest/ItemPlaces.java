package sectorglass.filetest;

import java.io.IOException;

import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/** The places of the items of a HEIF file: all inside the file (ISO/IEC 14496-12, section 8.11.3). */
final class ItemPlaces {

    private ItemPlaces() {
    }

    /** Tests an {@code iloc} box; null where all is well. */
    static TestResult test(TestedFile file, long from, long end) throws IOException {
        int version = (int) file.big(from, 1);
        int sizes = (int) file.big(from + 4, 2);
        int offsetSize = sizes >> 12;
        int lengthSize = sizes >> 8 & 15;
        int baseSize = sizes >> 4 & 15;
        int indexSize = version > 0 ? sizes & 15 : 0;
        int wide = version < 2 ? 2 : 4;
        long items = file.big(from + 6, wide);
        long at = from + 6 + wide;
        for (long i = 0; i < items; i++) {
            file.checkTime();
            at += wide;
            boolean inFile = true;
            if (version > 0) {
                inFile = (file.big(at, 2) & 15) == 0;
                at += 2;
            }
            at += 2;
            long base = baseSize == 0 ? 0 : file.big(at, baseSize);
            at += baseSize;
            long extents = file.big(at, 2);
            at += 2;
            for (long k = 0; k < extents; k++) {
                at += indexSize;
                long offset = offsetSize == 0 ? 0 : file.big(at, offsetSize);
                long length = lengthSize == 0 ? 0 : file.big(at + offsetSize, lengthSize);
                at += offsetSize + lengthSize;
                if (at > end) {
                    return TestResult.damaged("test.size", "iloc", from);
                }
                if (inFile && (base + offset < 0 || length < 0 || base + offset > file.bytes() - length)) {
                    return TestResult.damaged("test.table", "iloc", "item " + i);
                }
            }
        }
        return at > end ? TestResult.damaged("test.size", "iloc", from) : null;
    }
}
