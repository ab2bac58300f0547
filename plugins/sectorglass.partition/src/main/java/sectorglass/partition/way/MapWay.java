package sectorglass.partition.way;

import java.util.List;
import java.util.Locale;

import sectorglass.disk.MapEntry;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.way.WayBuilder;
import sectorglass.disk.way.WayStep;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Texts;
import sectorglass.image.Window;
import sectorglass.partition.PartitionRules;

/**
 * Explains the way through MBR, EBR chain or GPT. Sources: UEFI 2.10, sections 5.2 and 5.3; for the chain, Linux kernel block/partitions/msdos.c.
 */
public final class MapWay {
    private static final int SLOTS = 446;
    private static final int SLOT = 16;
    private static final int PROTECTIVE = 0xEE;
    private static final int MOST_LINKS = 300;

    private final SectorImage image;
    private final int size;

    private MapWay(SectorImage image) {
        this.image = image;
        size = image.sectorSize();
    }

    /** The steps to an entry of a map. */
    public static List<WayStep> of(PartitionMap map, MapEntry entry, SectorImage image, Locale locale) {
        MapWay own = new MapWay(image);
        return WayBuilder.run(new Texts(PartitionRules.class, "way", locale), way -> {
            switch (map.kind()) {
                case "gpt" -> own.gpt(way, map, entry);
                case "ebr" -> own.ebr(way, map, entry);
                default -> own.mbr(way, entry);
            }
        });
    }

    private Window sector(long lba) {
        return image.window(Math.multiplyExact(lba, size), Math.min(size, 512));
    }

    private static ByteRange all(Window sector) {
        return new ByteRange(sector.start(), sector.length());
    }

    private void mbr(WayBuilder way, MapEntry entry) {
        Window sector = sector(0);
        int at = (int) (entry.where().start() - sector.start());
        way.step("mbr", all(sector), "mbr", (at - SLOTS) / SLOT + 1, SLOTS);
        way.number("type", sector, at + 4, 1);
        long first = way.number("first", sector, at + 8, 4);
        way.number("count", sector, at + 12, 4);
        way.next(way.sum("sector", first + " × " + size, first * size));
    }

    /** From the slot of the container from record to record, each link counted from the start of the container. */
    private void ebr(WayBuilder way, PartitionMap map, MapEntry entry) {
        Window zero = sector(0);
        int slot = container(zero, map.lba());
        way.step("container", all(zero), "mbr", slot + 1, SLOTS);
        way.number("type", zero, SLOTS + slot * SLOT + 4, 1);
        long container = way.number("first", zero, SLOTS + slot * SLOT + 8, 4);
        way.next(way.sum("sector", container + " × " + size, container * size));
        long lba = container;
        for (int link = 0; link < MOST_LINKS; link++) {
            Window record = sector(lba);
            boolean here = entry.where().start() >= record.start() && entry.where().start() < record.start() + 512;
            way.step(here ? "ebr" : "link", all(record), "ebr", link + 1);
            int at = here ? (int) (entry.where().start() - record.start()) : linkAt(record);
            if (at < 0) {
                throw way.stop("chain");
            }
            long relative = way.number(here ? "first" : "next", record, at + 8, 4);
            if (here) {
                way.next(way.sum("relative", "(" + lba + " + " + relative + ") × " + size, (lba + relative) * size));
                return;
            }
            lba = container + relative;
            way.next(way.sum("linked", "(" + container + " + " + relative + ") × " + size, lba * size));
        }
        throw way.stop("chain");
    }

    private static int container(Window zero, long lba) {
        for (int slot = 0; slot < 4; slot++) {
            if (zero.u32le(SLOTS + slot * SLOT + 8) == lba && isContainer(zero.u8(SLOTS + slot * SLOT + 4))) {
                return slot;
            }
        }
        return 0;
    }

    private static boolean isContainer(int type) {
        return type == 0x05 || type == 0x0F || type == 0x85;
    }

    private static int linkAt(Window record) {
        for (int slot = 0; slot < 4; slot++) {
            if (isContainer(record.u8(SLOTS + slot * SLOT + 4))) {
                return SLOTS + slot * SLOT;
            }
        }
        return -1;
    }

    private void gpt(WayBuilder way, PartitionMap map, MapEntry entry) {
        Window zero = sector(0);
        int slot = 0;
        while (slot < 3 && zero.u8(SLOTS + slot * SLOT + 4) != PROTECTIVE) {
            slot++;
        }
        way.step("protective", all(zero), "mbr", slot + 1);
        if (way.number("type", zero, SLOTS + slot * SLOT + 4, 1) != PROTECTIVE) {
            way.next(map.lba() * size);
        } else {
            long first = way.number("first", zero, SLOTS + slot * SLOT + 8, 4);
            way.next(map.copy() == PartitionMap.Copy.PRIMARY ? way.sum("sector", first + " × " + size, first * size) : map.lba() * size);
        }
        Window header = image.window(map.lba() * size, 92);
        way.step(map.copy() == PartitionMap.Copy.PRIMARY ? "header" : "backup", all(header), "gpt_header", map.lba());
        long array = way.number("array", header, 72, 8);
        long bytes = way.number("entry-size", header, 84, 4);
        long place = entry.where().start();
        way.sum("entry", array + " × " + size + " + (" + entry.slot() + " − 1) × " + bytes, place);
        way.next(place);
        Window used = image.window(place, 56);
        way.step("entry", entry.where(), "gpt_entries", entry.slot());
        long first = way.number("first", used, 32, 8);
        way.number("last", used, 40, 8);
        if (first < 0 || first > Long.MAX_VALUE / size) {
            throw way.stop("far");
        }
        way.next(way.sum("sector", first + " × " + size, first * size));
    }
}
