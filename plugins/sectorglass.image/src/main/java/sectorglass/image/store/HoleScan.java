package sectorglass.image.store;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;

/**
 * Asks the platform for the holes of a file by seeking for data and holes. Source of the numbers: lseek(2) of Linux and of macOS (which
 * exchange 3 and 4), open(2); from memory. The native library is loaded on the first call only.
 */
public final class HoleScan {
    private static final int READ_ONLY = 0;
    private static final int SEEK_END = 2;
    /** No data behind this place. */
    private static final int ENXIO = 6;

    private HoleScan() {
    }

    /** Hears of holes. */
    @FunctionalInterface
    public interface Visitor {
        /** One hole; whether to go on. */
        boolean hole(long start, long end);
    }

    /** The calls of the C library. */
    interface CLibrary extends Library {
        int open(String path, int flags, int mode) throws LastErrorException;

        int close(int file);
    }

    /** Seeking under the name it has on Linux. */
    interface LinuxLibrary extends CLibrary {
        long lseek64(int file, long offset, int whence) throws LastErrorException;
    }

    /** Seeking under the name it has on macOS. */
    interface MacLibrary extends CLibrary {
        long lseek(int file, long offset, int whence) throws LastErrorException;
    }

    /** The way to seek on this platform. */
    private interface Seek {
        long to(int file, long offset, int whence) throws LastErrorException;
    }

    /**
     * Visits the holes of a file in order.
     *
     * @return whether the platform told all of them
     */
    public static boolean scan(Path file, Visitor visitor) throws IOException {
        String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        Map<String, Object> options = Map.of(Library.OPTION_STRING_ENCODING, System.getProperty("sun.jnu.encoding", "UTF-8"));
        try {
            if (system.contains("linux")) {
                LinuxLibrary c = Native.load("c", LinuxLibrary.class, options);
                return scan(c, c::lseek64, 3, 4, file, visitor);
            }
            if (system.contains("mac")) {
                MacLibrary c = Native.load("c", MacLibrary.class, options);
                return scan(c, c::lseek, 4, 3, file, visitor);
            }
            return false;
        } catch (UnsatisfiedLinkError | NoClassDefFoundError e) {
            return false; // no native access here: holes are not known
        } catch (LastErrorException e) {
            throw new IOException(file + ": " + e.getMessage(), e);
        }
    }

    private static boolean scan(CLibrary c, Seek seek, int seekData, int seekHole, Path file, Visitor visitor) {
        int open = c.open(file.toString(), READ_ONLY, 0);
        try {
            long end = seek.to(open, 0, SEEK_END);
            long at = 0;
            while (at < end) {
                long hole = seek.to(open, at, seekHole);
                if (hole < at || hole >= end) {
                    return true;
                }
                long data = data(seek, open, hole, seekData, end);
                if (data <= hole || !visitor.hole(hole, data)) {
                    return false;
                }
                at = data;
            }
            return true;
        } finally {
            c.close(open);
        }
    }

    private static long data(Seek seek, int open, long hole, int seekData, long end) {
        try {
            return Math.min(end, seek.to(open, hole, seekData));
        } catch (LastErrorException e) {
            if (e.getErrorCode() == ENXIO) {
                return end;
            }
            throw e;
        }
    }
}
