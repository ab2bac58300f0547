package sectorglass.filetest;

import java.io.IOException;

import sectorglass.recovery.opening.TestedFile;

/** Video samples made of units that begin with their length: the units must fill the sample (ISO/IEC 14496-15, sections 5.3.3 and 8.3.3). */
final class UnitLengths {
    private static final int VIDEO_ENTRY = 86;

    private UnitLengths() {
    }

    /** Bytes of each unit's length in the first kind of sample of a track; 0 where it has no such units. */
    static int lengthSize(TestedFile file, long[] descriptions) throws IOException {
        long entry = descriptions[0] + 8;
        if (descriptions[1] - entry < VIDEO_ENTRY + 8) {
            return 0;
        }
        String kind = file.text(entry + 4, 4);
        boolean avc = kind.equals("avc1");
        if (!avc && !kind.equals("hvc1") && !kind.equals("hev1")) {
            return 0;
        }
        for (long at = entry + VIDEO_ENTRY; at < descriptions[1] - 32;) {
            long size = file.big(at, 4);
            if (size < 8 || size > descriptions[1] - at) {
                return 0;
            }
            if (file.text(at + 4, 4).equals(avc ? "avcC" : "hvcC")) {
                return (int) (file.big(at + 8 + (avc ? 4 : 21), 1) & 3) + 1;
            }
            at += size;
        }
        return 0;
    }

    /** Whether units fill a sample; a unit never begins with a set forbidden bit or all zero. */
    static boolean fill(TestedFile file, long at, long size, int lengthSize) throws IOException {
        long end = at + size;
        while (at < end) {
            if (end - at < lengthSize) {
                return false;
            }
            long length = file.big(at, lengthSize);
            at += lengthSize;
            if (length == 0 || length > end - at || (file.big(at, 1) & 0x80) != 0) {
                return false;
            }
            at += length;
        }
        return true;
    }
}
