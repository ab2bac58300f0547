package sectorglass.disk;

import java.nio.charset.Charset;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;

import sectorglass.image.SectorRange;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** Collects what a volume says of itself; a value whose bytes were not read stays absent. */
public final class VolumeFacts {
    /** The label, or null. */
    public String label;
    /** The serial number as its file system writes it, or null. */
    public String serial;
    /** The UUID, or null. */
    public String uuid;
    /** Bytes per cluster or block, or null. */
    public Long clusterBytes;
    /** Length of the volume in bytes, or null. */
    public Long bytes;
    /** Bytes in use, or null. */
    public Long usedBytes;
    /** The latest date met, or null. */
    public Instant latest;
    /** Sentences for people. */
    public final List<String> remarks = new ArrayList<>();

    /** The value, or null where its bytes were not read or do not exist. */
    public static <T> T known(Supplier<T> value) {
        try {
            return value.get();
        } catch (UnreadException e) {
            return null;
        }
    }

    /** Text up to the first zero, or null where it is empty. */
    public static String text(Window window, int at, int length, Charset charset) {
        byte[] bytes = window.bytes(at, length);
        int end = 0;
        while (end < length && bytes[end] != 0) {
            end++;
        }
        String text = new String(bytes, 0, end, charset).strip();
        return text.isEmpty() ? null : text;
    }

    /** All of the window as two-byte text up to the first zero unit, or null where it is empty. */
    public static String text(Window window, Charset twoBytes) {
        String text = window.text(0, window.length(), twoBytes);
        int end = text.indexOf(0);
        text = (end < 0 ? text : text.substring(0, end)).strip();
        return text.isEmpty() ? null : text;
    }

    /** A UUID whose bytes stand in the order of its text, or null where it is all zero. */
    public static String uuid(Window window, int at) {
        return window.filled(at, 16, 0) ? null : uuid(window.bytes(at, 16));
    }

    /** The text of 16 bytes in their order. */
    public static String uuid(byte[] bytes) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 16; i++) {
            text.append(i == 4 || i == 6 || i == 8 || i == 10 ? "-" : "").append(String.format("%02x", bytes[i]));
        }
        return text.toString();
    }

    /** The product of two counts from disk, or null where it is no sensible size. */
    public static Long product(long count, long size) {
        return count < 0 || size < 0 || Math.multiplyHigh(count, size) != 0 || count * size < 0 ? null : (Long) (count * size);
    }

    /** Whether the value is a power of two within the bounds. */
    public static boolean power(long value, long least, long most) {
        return value >= least && value <= most && Long.bitCount(value) == 1;
    }

    /** What was collected. */
    public VolumeInfo info(String kind, VolumeSite site) {
        long sector = site.image().sectorSize();
        long sectors = bytes == null ? site.range().count() : Math.min(bytes / sector + (bytes % sector == 0 ? 0 : 1), Long.MAX_VALUE / 8192);
        return new VolumeInfo(kind, new SectorRange(site.range().first(), sectors), label, null, serial, uuid, clusterBytes, bytes,
                usedBytes, latest, List.copyOf(remarks));
    }
}
