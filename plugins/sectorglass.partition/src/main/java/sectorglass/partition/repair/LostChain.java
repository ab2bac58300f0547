package sectorglass.partition.repair;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;

import sectorglass.disk.Evidence;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.UnreadException;
import sectorglass.partition.mbr.MbrTable;
import sectorglass.partition.mbr.Slot;

/**
 * EBRs found without the chain that led to them: a signed sector before a volume, whose first slot points at that volume, whose second
 * is a link or empty, and whose last two are empty.
 *
 * @param container first sector of the container, from which links count: the lowest EBR, or what two EBRs tell together
 * @param links by LBA
 */
record LostChain(long container, List<Link> links) {
    /** Sectors before a volume that are looked at: 1 MiB of 512-byte sectors, the usual gap. */
    private static final int NEAR = 2048;
    private static final int CHUNK = 64;

    /**
     * One EBR.
     *
     * @param lba where it stands
     * @param data its first slot
     * @param link its second slot; not used at the end
     */
    record Link(long lba, Slot data, Slot link) {

        /** Its data on the disk. */
        SectorRange range() {
            return data.range(lba);
        }
    }

    /** The EBR right before a volume, if there is one. */
    static Optional<Link> before(SectorImage image, SectorRange volume) {
        for (long lba = volume.first() - 1; lba > 0 && lba >= volume.first() - NEAR; lba--) {
            Link found = at(image, lba);
            if (found != null && lba + found.data().first() == volume.first()) {
                return Optional.of(found);
            }
        }
        return Optional.empty();
    }

    /** The EBR at a sector, or null where none stands there. */
    static Link at(SectorImage image, long lba) {
        try {
            if (!image.window(lba * image.sectorSize() + SlotBytes.SIGNATURE, 2).matches(0, 0x55, 0xAA)) {
                return null;
            }
            List<Slot> slots = MbrTable.read(image, lba).slots();
            Slot data = slots.get(0);
            Slot link = slots.get(1);
            boolean legal = data.used() && data.activeLegal() && !data.container() && data.first() > 0 && (link.zero() || link.container())
                    && slots.get(2).zero() && slots.get(3).zero() && lba + data.first() + data.count() <= image.sectors();
            return legal ? new Link(lba, data, link) : null;
        } catch (UnreadException e) {
            return null;
        }
    }

    /** The chain that the EBRs before these volumes make; empty where there is none or they contradict each other. */
    static Optional<LostChain> of(SectorImage image, List<Evidence.FoundVolume> volumes) {
        TreeMap<Long, Link> found = new TreeMap<>();
        for (Evidence.FoundVolume volume : volumes) {
            before(image, FoundTable.range(volume)).ifPresent(link -> found.put(link.lba(), link));
        }
        if (found.isEmpty()) {
            return Optional.empty();
        }
        List<Link> links = new ArrayList<>(found.values());
        List<Long> starts = new ArrayList<>(List.of(found.firstKey()));
        for (int i = 0; i + 1 < links.size(); i++) {
            if (links.get(i).link().container()) {
                starts.add(links.get(i + 1).lba() - links.get(i).link().first());
            }
        }
        for (long start : starts) {
            if (start > 0 && start <= found.firstKey() && leads(start, links)) {
                return Optional.of(new LostChain(start, List.copyOf(links)));
            }
        }
        return Optional.empty();
    }

    /** Whether each link leads to the next EBR found, or to a lost one before it. */
    private static boolean leads(long container, List<Link> links) {
        for (int i = 0; i + 1 < links.size(); i++) {
            Slot link = links.get(i).link();
            long target = container + link.first();
            if (link.zero() || target <= links.get(i).lba() || target > links.get(i + 1).lba()) {
                return false;
            }
        }
        return true;
    }

    /** The sectors up to the end of the last partition that a link or data slot names. */
    SectorRange range() {
        long end = container;
        for (Link link : links) {
            end = Math.max(end, link.range().end());
            if (link.link().container()) {
                end = Math.max(end, container + link.link().first() + link.link().count());
            }
        }
        return new SectorRange(container, end - container);
    }

    /** EBRs of a container that no chain leads to: before found volumes, and on boundaries of 1 MiB. */
    static List<Link> within(SectorImage image, SectorRange container, List<Evidence.FoundVolume> volumes) {
        TreeMap<Long, Link> found = new TreeMap<>();
        for (Evidence.FoundVolume volume : volumes) {
            if (container.contains(FoundTable.range(volume).first())) {
                before(image, FoundTable.range(volume)).ifPresent(link -> found.put(link.lba(), link));
            }
        }
        long step = Math.max(1, (1L << 20) / image.sectorSize());
        long first = container.first() - container.first() % step;
        for (int i = 0; i < CHUNK * CHUNK && first < container.end(); i++, first += step) {
            Link link = first < container.first() ? null : at(image, first);
            if (link != null && container.contains(link.range())) {
                found.put(first, link);
            }
        }
        return List.copyOf(found.values());
    }
}
