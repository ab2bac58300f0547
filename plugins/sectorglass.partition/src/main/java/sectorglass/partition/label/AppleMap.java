package sectorglass.partition.label;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;

/**
 * An Apple partition map, big endian: one entry per block from block 1. Offsets in bytes (Inside Macintosh: Devices, chapter 3).
 *
 * @param blockSize bytes per block of the map
 * @param driver block 0
 * @param entries the entries in slot order; ones that were not read or bear no signature among them
 */
record AppleMap(int blockSize, Window driver, List<Window> entries) {
    static final int COUNT = 4;
    static final int FIRST = 8;
    static final int BLOCKS = 12;
    static final int NAME = 16;
    static final int TYPE = 48;
    static final int TEXT = 32;
    /** libblkid takes no longer map for real. */
    private static final int MAX_ENTRIES = 256;
    private static final int LENGTH = 512;

    /** The map of the image, or null. */
    static AppleMap of(SectorImage image) {
        Window driver = image.window(0, LENGTH);
        List<Integer> sizes = new ArrayList<>();
        if (driver.isRead(0, LENGTH) && driver.matches(0, "ER")) {
            int said = driver.u16be(2);
            if (said >= LENGTH && said % LENGTH == 0) {
                sizes.add(said);
            }
        }
        sizes.add(LENGTH);
        for (int size : sizes) {
            Window first = image.window(size, LENGTH);
            if (signed(first) && first.u32be(COUNT) >= 1 && first.u32be(COUNT) <= MAX_ENTRIES) {
                List<Window> entries = new ArrayList<>();
                for (int i = 1; i <= first.u32be(COUNT); i++) {
                    entries.add(image.window((long) i * size, LENGTH));
                }
                return new AppleMap(size, driver, List.copyOf(entries));
            }
        }
        return null;
    }

    static boolean signed(Window entry) {
        return entry.isRead(0, LENGTH) && (entry.matches(0, "PM") || entry.matches(0, "TS"));
    }

    static String text(Window entry, int at) {
        String all = entry.ascii(at, TEXT);
        int end = all.indexOf(0);
        return end < 0 ? all : all.substring(0, end);
    }

    /** Sectors of the image that an entry names. */
    SectorRange range(Window entry, SectorImage image) {
        long from = entry.u32be(FIRST) * blockSize;
        long bytes = entry.u32be(BLOCKS) * blockSize;
        long first = from / image.sectorSize();
        return new SectorRange(first, bytes == 0 ? 0 : (from + bytes - 1) / image.sectorSize() + 1 - first);
    }

    /** Whether the entry stands for free space or an empty slot. */
    static boolean free(String type) {
        return type.equals("Apple_Free") || type.equals("Apple_Void") || type.equals("Apple_Extra");
    }
}
