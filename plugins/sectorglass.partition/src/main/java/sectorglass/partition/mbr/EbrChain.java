package sectorglass.partition.mbr;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.UnreadException;

/**
 * The chain of EBRs in an extended container, walked with a set of visited sectors. Data starts count from the EBR that names them,
 * links from the first sector of the container (Linux kernel block/partitions/msdos.c).
 *
 * @param container the slot that names the container
 * @param range sectors of the container on the disk
 * @param links the EBRs in chain order; the last one tells how the chain ends
 */
public record EbrChain(Slot container, SectorRange range, List<Ebr> links) {
    /** Linux gives up after this many links without data; the bound on all links is ours. */
    private static final int MAX_EMPTY = 100;
    private static final int MAX_LINKS = 4096;

    /** Walks the chain of a container. */
    public static EbrChain walk(SectorImage image, Slot container) {
        SectorRange range = container.range();
        List<Ebr> found = new ArrayList<>();
        Set<Long> visited = new HashSet<>();
        long lba = range.first();
        SectorRange span = range;
        int empty = 0;
        while (true) {
            visited.add(lba);
            Ebr ebr = read(image, lba, span, range);
            found.add(ebr);
            Slot link = ebr.link();
            if (ebr.table() == null || link == null) {
                break;
            }
            empty = ebr.data().isEmpty() ? empty + 1 : 0;
            long next = range.first() + link.first();
            if (!range.contains(next) || visited.contains(next) || empty > MAX_EMPTY || found.size() >= MAX_LINKS) {
                break;
            }
            span = new SectorRange(next, link.count());
            lba = next;
        }
        return new EbrChain(container, range, List.copyOf(found));
    }

    private static Ebr read(SectorImage image, long lba, SectorRange span, SectorRange range) {
        MbrTable table;
        try {
            table = MbrTable.read(image, lba);
        } catch (UnreadException e) {
            return new Ebr(lba, span, null, List.of(), null, e.missing());
        }
        List<Slot> slots = table.slots();
        Slot link = null;
        List<Slot> data = new ArrayList<>();
        for (Slot slot : slots) {
            if (slot.container()) {
                link = link == null ? slot : link;
            } else if (slot.used() && (slot.index() <= 2 || within(slot.range(lba), span, range))) {
                data.add(slot);
            }
        }
        boolean believable = table.signed() || plausible(table, lba, range);
        return believable ? new Ebr(lba, span, table, List.copyOf(data), link, SectorRanges.EMPTY)
                : new Ebr(lba, span, table, List.of(), null, SectorRanges.EMPTY);
    }

    private static boolean within(SectorRange data, SectorRange span, SectorRange range) {
        return span.contains(data) && range.contains(data);
    }

    /** An EBR whose 55 AA is lost is still followed where everything else in it makes sense. */
    private static boolean plausible(MbrTable table, long lba, SectorRange range) {
        List<Slot> slots = table.slots();
        boolean data = slots.get(0).used() && slots.get(0).activeLegal() && range.contains(slots.get(0).range(lba));
        boolean link = slots.get(1).zero() || slots.get(1).container() && range.contains(range.first() + slots.get(1).first());
        return data && link && slots.get(2).zero() && slots.get(3).zero();
    }

    /** LBA where the next EBR would be, or -1 where there is no link. */
    public long target(Ebr ebr) {
        return ebr.link() == null ? -1 : range.first() + ebr.link().first();
    }

    /**
     * One EBR.
     *
     * @param lba where it lies
     * @param span the sectors that the link to it gave it; for the first one the container
     * @param table its table, or null where the sector was not read
     * @param data slots that name partitions, relative to {@code lba}
     * @param link the slot that names the next EBR, or null at the end
     * @param missing sectors not read
     */
    public record Ebr(long lba, SectorRange span, MbrTable table, List<Slot> data, Slot link, SectorRanges missing) { }
}
