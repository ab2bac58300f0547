package sectorglass.fat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

import sectorglass.disk.Sighting;
import sectorglass.disk.SightingBuilder;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/**
 * File allocation tables without a boot sector: two equal ones give the size of a table and where the root directory or the data begin;
 * the start of the volume lies a few sectors before the first, at a full MiB most of the time (common practice, no source).
 */
final class TablePairs {
    private static final String TABLE = "allocation-table";
    private static final int COMPARED = 512;
    private static final long ALIGNED = 1 << 20;
    /** Sectors before the first FAT that formatters write: one or few for FAT12 and FAT16, 32 for FAT32, more to align the data. */
    private static final int[] RESERVED = {1, 2, 4, 6, 8, 16, 32, 64};
    private static final long LARGEST_TABLE = 1L << 30;

    private TablePairs() {
    }

    /** A place where a FAT may begin: its entries 0 and 1 are all ones but for the media byte. */
    static Optional<Sighting> table(SectorImage image, long at) {
        Window head = image.window(at, COMPARED);
        if (!head.isRead(0, COMPARED) || !Recognition.legalMedia(head.u8(0))) {
            return Optional.empty();
        }
        String kind = kind(head);
        if (kind == null || head.filled(3, COMPARED - 3, 0xFF)) {
            return Optional.empty();
        }
        return Optional.of(new SightingBuilder(kind, TABLE, at, COMPARED).format(kind + "_table", Map.of("first_entry", 0L))
                .copy(Sighting.Copy.RECORDS).because(kind.equals("fat32"), Sighting.Reason.LONG_SIGNATURE).build());
    }

    private static String kind(Window head) {
        if ((head.u32le(0) & 0x0FFFFF00) == 0x0FFFFF00 && head.u8(3) == 0x0F && (head.u32le(4) & 0x03FFFFFF) == 0x03FFFFFF) {
            return "fat32";
        }
        return head.u8(3) == 0xFF ? "fat16" : head.u8(3) < 0xF0 ? "fat12" : null;
    }

    static List<Sighting> of(SectorImage image, List<Sighting> own) {
        List<Sighting> tables = own.stream().filter(s -> s.structure().equals(TABLE)).toList();
        List<Long> known = own.stream().map(s -> s.facts().get("fatByte")).filter(Objects::nonNull).map(v -> ((Number) v).longValue()).toList();
        List<Sighting> pairs = new ArrayList<>();
        for (int i = 0; i + 1 < tables.size(); i++) {
            Sighting first = tables.get(i);
            Sighting second = tables.get(i + 1);
            long distance = second.where().start() - first.where().start();
            if (!known.contains(first.where().start()) && first.kind().equals(second.kind()) && distance > 0 && distance <= LARGEST_TABLE
                    && Arrays.equals(head(image, first), head(image, second))) {
                pairs.add(pair(first, distance, image.sectorSize()));
                i++;
            }
        }
        return pairs;
    }

    private static byte[] head(SectorImage image, Sighting table) {
        return image.window(table.where().start(), COMPARED).raw(0, COMPARED);
    }

    private static Sighting pair(Sighting first, long distance, int sectorBytes) {
        long at = first.where().start();
        SightingBuilder pair = new SightingBuilder(first.kind(), "allocation-tables", at, COMPARED).format(first.format(), first.params())
                .copy(Sighting.Copy.RECORDS).fact("fatBytes", distance).fact("firstFat", at)
                .because(true, Sighting.Reason.COPY_EQUAL).because(true, Sighting.Reason.FIELDS_AGREE);
        for (int reserved : RESERVED) {
            long start = at - (long) reserved * sectorBytes;
            if (start >= 0 && start % ALIGNED == 0) {
                return pair.vote("aligned-before-tables", start, Sighting.UNKNOWN, 2).build();
            }
        }
        for (int reserved : RESERVED) {
            long start = at - (long) reserved * sectorBytes;
            if (start >= 0) {
                pair.vote("before-tables", start, Sighting.UNKNOWN, 1);
            }
        }
        return pair.build();
    }
}
