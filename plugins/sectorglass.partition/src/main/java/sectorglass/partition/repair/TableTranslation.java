package sectorglass.partition.repair;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.zip.CRC32;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.Translation;
import sectorglass.image.SectorImage;
import sectorglass.partition.gpt.GptCopies;
import sectorglass.partition.gpt.GptDisk;
import sectorglass.partition.gpt.GptHeader;
import sectorglass.partition.mbr.EbrChain;
import sectorglass.partition.mbr.MbrTable;
import sectorglass.partition.mbr.SectorZero;
import sectorglass.partition.mbr.Slot;

/** A whole partition table for another sector size: every address is counted anew, every partition stays where its bytes are. */
public final class TableTranslation {
    private static final int FIRST = 32;
    private static final int LAST = 40;
    private static final int USABLE_FIRST = 40;
    private static final int USABLE_LAST = 48;
    private static final long FILLER = 0xFFFFFFFFL;

    private final SectorImage image;
    private final int from;
    private final int to;
    private final RepairTexts texts;
    private final List<Repair.Change> changes = new ArrayList<>();
    private String refusal;

    /** @param to bytes per sector wanted */
    public TableTranslation(SectorImage image, int to, RepairTexts texts) {
        this.image = image;
        this.from = image.sectorSize();
        this.to = to;
        this.texts = texts;
    }

    /** The MBR and its EBRs, or the protective MBR. */
    public Translation mbr() {
        SectorZero zero = SectorZero.of(image);
        if (image.bytes() % to != 0) {
            return Translation.refused(texts.of("translate.image", image.bytes(), to));
        }
        table(zero.table(), 0);
        for (Slot slot : zero.table().ordinary()) {
            if (slot.container()) {
                EbrChain.walk(image, slot).links().stream().filter(ebr -> ebr.table() != null).forEach(ebr -> table(ebr.table(), ebr.lba()));
            }
        }
        return result();
    }

    private void table(MbrTable table, long lba) {
        byte[] bytes = image.window(lba * from, MbrTable.SECTOR_BYTES).raw(0, MbrTable.SECTOR_BYTES);
        for (Slot slot : table.slots()) {
            int at = SlotBytes.SLOTS + (slot.index() - 1) * Slot.SIZE;
            if (slot.protective()) {
                GptCopies.le(bytes, at + 12, 4, Math.min(FILLER, slot.count() == FILLER ? FILLER : image.bytes() / to - 1));
            } else if (slot.used()) {
                long first = scaled(slot.first());
                long count = scaled(slot.count());
                if (first > FILLER || count > FILLER) {
                    refusal = texts.of("translate.large", to);
                }
                GptCopies.le(bytes, at + 8, 4, first);
                GptCopies.le(bytes, at + 12, 4, count);
            }
        }
        changes.add(new Repair.Change(lba * from, bytes, texts.of("translate.slots", to)));
    }

    private long scaled(long sectors) {
        long bytes = sectors * from;
        if (bytes % to != 0) {
            refusal = texts.of("translate.uneven", sectors, from, to);
        }
        return bytes / to;
    }

    /** Both copies of a GPT. */
    public Translation gpt(GptDisk disk) {
        GptCopies copies = GptCopies.of(disk, image);
        if (copies == null) {
            return Translation.refused(texts.of("translate.gpt-bad"));
        }
        if (image.bytes() % to != 0) {
            return Translation.refused(texts.of("translate.image", image.bytes(), to));
        }
        byte[] array = copies.array();
        int size = (int) copies.source().entrySize();
        long sectors = (array.length + to - 1) / to;
        long end = image.bytes() / to;
        long firstUsable = 2 + Math.max(sectors, (GptCopies.LEAST_ARRAY + to - 1) / to);
        long lastUsable = end - 2 - sectors;
        for (int at = 0; at + size <= array.length; at += size) {
            if (!GptRepairs.blank(Arrays.copyOfRange(array, at, at + 16))) {
                long first = scaled(number(array, at + FIRST));
                long last = scaled(number(array, at + LAST) + 1) - 1;
                if (first < firstUsable || last > lastUsable) {
                    refusal = texts.of("translate.gpt-room", to);
                }
                GptCopies.le(array, at + FIRST, 8, first);
                GptCopies.le(array, at + LAST, 8, last);
            }
        }
        CRC32 crc = new CRC32();
        crc.update(array);
        copy(copies.source(), 1, end - 1, 2, firstUsable, lastUsable, array, crc.getValue());
        copy(copies.source(), end - 1, 1, end - 1 - sectors, firstUsable, lastUsable, array, crc.getValue());
        if (copies.source().sector().length() != to) {
            old(from);
        }
        return result();
    }

    /** The old header must not be met as one of another sector size. */
    private void old(int size) {
        for (long at : new long[] {size, image.bytes() - size}) {
            boolean covered = changes.stream().anyMatch(change -> change.range().contains(at));
            if (!covered) {
                changes.add(new Repair.Change(at, new byte[Math.min(size, 512)], texts.of("translate.gpt-old")));
            }
        }
    }

    private void copy(GptHeader source, long my, long alternate, long entries, long firstUsable, long lastUsable, byte[] array, long crc) {
        int length = (int) source.size();
        byte[] sector = new byte[to];
        System.arraycopy(source.sector().bytes(0, length), 0, sector, 0, length);
        GptCopies.le(sector, 24, 8, my);
        GptCopies.le(sector, 32, 8, alternate);
        GptCopies.le(sector, USABLE_FIRST, 8, firstUsable);
        GptCopies.le(sector, USABLE_LAST, 8, lastUsable);
        GptCopies.le(sector, 72, 8, entries);
        GptCopies.seal(sector, length, crc);
        changes.add(new Repair.Change(my * to, sector, texts.of("translate.gpt-header", to)));
        changes.add(new Repair.Change(entries * to, array.clone(), texts.of("translate.gpt-entries", to)));
    }

    private static long number(byte[] bytes, int at) {
        long value = 0;
        for (int i = 7; i >= 0; i--) {
            value = value << 8 | bytes[at + i] & 0xFF;
        }
        return value;
    }

    private Translation result() {
        changes.sort(Comparator.comparingLong(Repair.Change::firstByte));
        return refusal != null ? Translation.refused(refusal) : Translation.of(changes, List.of());
    }
}
