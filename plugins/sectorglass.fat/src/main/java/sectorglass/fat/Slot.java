package sectorglass.fat;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;

/**
 * The fields of an 8.3 slot.
 *
 * @param attributes as stored
 * @param cluster first cluster; on FAT12 and FAT16 the upper word is ignored
 * @param bytes size of a file
 */
record Slot(int attributes, int cluster, long bytes, LocalDateTime created, LocalDateTime accessed, LocalDateTime written) {

    static Slot of(Directory directory, int slot, FatKind kind) {
        long cluster = directory.u16(slot, 26) | (kind == FatKind.FAT32 ? (long) directory.u16(slot, 20) << 16 : 0);
        LocalDateTime created = Root.DosTime.of(directory.u16(slot, 16), directory.u16(slot, 14));
        int hundredths = directory.u8(slot, 13);
        if (created != null && hundredths <= 199) {
            created = created.plusNanos(hundredths * 10_000_000L);
        }
        return new Slot(directory.u8(slot, 11), cluster > Integer.MAX_VALUE ? -1 : (int) cluster, directory.u32(slot, 28), created,
                Root.DosTime.of(directory.u16(slot, 18), 0), Root.DosTime.of(directory.u16(slot, 24), directory.u16(slot, 22)));
    }

    boolean folder() {
        return (attributes & 0x10) != 0;
    }

    /** The attributes in words. */
    List<String> words() {
        List<String> words = new ArrayList<>();
        String[] names = {"read-only", "hidden", "system", null, null, "archive"};
        for (int i = 0; i < names.length; i++) {
            if (names[i] != null && (attributes >> i & 1) != 0) {
                words.add(names[i]);
            }
        }
        return words;
    }
}
