package sectorglass.partition.gpt;

import java.util.List;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.UnreadException;
import sectorglass.partition.mbr.SectorZero;
import sectorglass.partition.mbr.Slot;

/**
 * Where the copies of a GPT stand on a disk, or ought to. The backup is looked for where a sound primary header points, else in the
 * last LBA, else where the protective slot ends (UEFI 2.10, section 5.3.2: do not trust AlternateLBA of a bad header).
 *
 * @param zero what LBA 0 is
 * @param primary LBA 1, where a header stands or is expected; else null
 * @param backup where the backup stands or is expected; else null
 * @param stray a header in the last LBA that the primary does not name; else null
 * @param leftover whether all copies belong to a former state of the disk
 * @param otherSize a sound header of another sector size, as image byte, or -1
 */
public record GptDisk(SectorZero zero, GptHeader primary, GptHeader backup, GptHeader stray, boolean leftover, long otherSize) {

    /** Looks for the copies; reads some sectors only. */
    public static GptDisk of(SectorImage image) {
        SectorZero zero = SectorZero.of(image);
        long last = image.sectors() - 1;
        GptHeader first = GptHeader.read(image, 1);
        GptHeader end = last > 1 ? GptHeader.read(image, last) : null;
        boolean leftover = zero.onlyOrdinary() || zero.volume() != null;
        Slot protective = leftover ? null : zero.protective();
        GptHeader named = protectiveEnd(image, protective);
        boolean known = first.found() || found(end) || found(named) || protective != null;
        long other = first.good() ? -1 : SectorSizes.otherSize(image);
        if (!known && other < 0) {
            return new GptDisk(zero, null, null, null, leftover, -1);
        }
        GptHeader backup = backup(image, first, end, named, protective);
        boolean expected = !leftover && (protective != null || found(backup));
        GptHeader primary = first.found() || expected ? first : null;
        if (leftover && !found(backup)) {
            backup = null;
        }
        GptHeader stray = found(end) && (backup == null || backup.lba() != last) ? end : null;
        return new GptDisk(zero, primary, backup, stray, leftover, other);
    }

    private static GptHeader protectiveEnd(SectorImage image, Slot slot) {
        if (slot == null || slot.first() != 1 || slot.count() >= image.sectors() || slot.count() <= 1) {
            return null;
        }
        return GptHeader.read(image, slot.count());
    }

    private static GptHeader backup(SectorImage image, GptHeader first, GptHeader end, GptHeader named, Slot protective) {
        if (first.sound()) {
            long lba = first.alternateLba();
            if (Long.compareUnsigned(lba, image.sectors()) >= 0) {
                return null;
            }
            return lba > 1 ? GptHeader.read(image, lba) : end;
        }
        if (found(end) || !found(named)) {
            boolean cut = protective != null && protective.count() != 0xFFFFFFFFL && protective.count() >= image.sectors();
            return found(end) || !cut ? end : null;
        }
        return named;
    }

    private static boolean found(GptHeader header) {
        return header != null && header.found();
    }

    /** Whether some copy bears the signature. */
    public boolean any() {
        return primary != null && primary.found() || backup != null && backup.found() || stray != null;
    }

    /** The other one of the two copies, or null. */
    GptHeader other(GptHeader header) {
        return header == primary ? backup : header == backup ? primary : null;
    }

    /** The copy whose entries count: the primary unless the backup is better; null where neither can be read. */
    public GptHeader authority(SectorImage image) {
        int first = rank(primary, image);
        int second = rank(backup, image);
        if (first == 0 && second == 0) {
            return null;
        }
        return first >= second ? primary : backup;
    }

    /** 4 good with its array, 3 good with an array not wholly read, 2 good, 1 can be read as a header, 0 not. */
    private static int rank(GptHeader header, SectorImage image) {
        if (header == null || !header.found() || !header.entries().readable()) {
            return 0;
        }
        if (!header.good()) {
            return 1;
        }
        try {
            return header.entries().crc(image) == header.storedEntriesCrc() ? 4 : 2;
        } catch (UnreadException e) {
            return 3;
        }
    }

    /** Ranges of the entries that count; empty where the disk has no GPT of its own. */
    public List<SectorRange> ranges(SectorImage image) {
        GptHeader header = leftover ? null : authority(image);
        return header == null ? List.of()
                : header.entries().list(image).stream().filter(GptEntry::used).map(GptEntry::range).toList();
    }
}
