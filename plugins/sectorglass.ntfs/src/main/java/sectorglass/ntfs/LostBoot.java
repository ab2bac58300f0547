package sectorglass.ntfs;

import java.util.Optional;

import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/**
 * The measures of a volume whose boot sector and its copy are both gone, from file record 0 or its mirror: the record says in which
 * cluster it lies, its place says in which byte, so the size of a cluster follows; $BadClus is as long as the volume. Looked for at
 * the few places where formatters put them: $MFT in cluster 4 or 786432, $MFTMirr in cluster 2 (from memory, and mkntfs).
 */
final class LostBoot {
    private static final long[] MFT_CLUSTERS = {4, 786_432};
    private static final long MIRROR_CLUSTER = 2;
    private static final int BAD_CLUSTERS = 8;

    private final VolumeSite site;

    LostBoot(VolumeSite site) {
        this.site = site;
    }

    Optional<BootFound> find() {
        for (int cluster = 512; cluster <= 65536; cluster *= 2) {
            for (long lcn : MFT_CLUSTERS) {
                Geometry found = at(lcn * cluster, cluster);
                if (found != null) {
                    return Optional.of(withCopy(found));
                }
            }
            Geometry found = at(MIRROR_CLUSTER * cluster, cluster);
            if (found != null) {
                return Optional.of(withCopy(found));
            }
        }
        return Optional.empty();
    }

    /**
     * The copy of the boot sector, if it stands within a cluster behind the last whole one: $BadClus counts whole clusters only, so the
     * volume may end some sectors later than it tells.
     */
    private BootFound withCopy(Geometry built) {
        long place = built.backupByte();
        for (long end = place + built.clusterBytes(); place < end; place += built.sectorBytes()) {
            if (place + BootSector.LENGTH > site.image().bytes()) {
                break;
            }
            Window copy = site.image().window(place, BootSector.LENGTH);
            Geometry stated = copy.isRead(0, BootSector.LENGTH) ? BootSector.geometry(copy, built.firstByte(), site.bytes()) : null;
            if (stated != null && BootSector.sound(copy, stated) && stated.backupByte() == place && stated.mftLcn() == built.mftLcn()
                    && stated.clusterBytes() == built.clusterBytes()) {
                return new BootFound(stated, place, true);
            }
        }
        return new BootFound(built, site.firstByte(), true);
    }

    /** The geometry if record 0, of $MFT or of its mirror, stands there and the records agree about clusters of that size. */
    private Geometry at(long place, int cluster) {
        RecordView view = record(place);
        if (view == null || view.u32(RecordView.ALLOCATED) < 512 || view.u32(RecordView.ALLOCATED) > 4096) {
            return null;
        }
        int size = (int) view.u32(RecordView.ALLOCATED);
        if (Integer.bitCount(size) != 1) {
            return null;
        }
        long mft = firstCluster(view);
        RecordView mirrorRecord = record(place + size);
        long mirror = mirrorRecord == null ? -1 : firstCluster(mirrorRecord);
        boolean isMft = mft > 0 && mft * cluster == place;
        boolean isMirror = mirror > 0 && mirror * cluster == place;
        if (mft <= 0 || !isMft && !isMirror) {
            return null;
        }
        int sector = Math.max(512, site.image().sectorSize());
        long sectors = sectors(mft * cluster, size, sector);
        long index = Math.max(4096, sector);
        return new Geometry(site.firstByte(), sector, Math.max(cluster, sector), size, (int) index, sectors, mft, Math.max(0, mirror), 0);
    }

    private RecordView record(long place) {
        if (place + 4096 > site.image().bytes() - site.firstByte()) {
            return null;
        }
        byte[] bytes = new byte[4096];
        SectorStates states = site.image().read(site.firstByte() + place, bytes, 0, bytes.length);
        RecordView view = new RecordView();
        view.load(bytes, 0, 1024, states, site.firstByte() + place);
        if (view.fix() == FixedBlock.Fix.BAD_HEADER && view.s32(0) == FixedBlock.FILE && view.u32(RecordView.ALLOCATED) == 4096) {
            view.load(bytes, 0, 4096, states, site.firstByte() + place);
        }
        return view.usable() && view.inUse() && view.isBase() ? view : null;
    }

    /** First cluster of the unnamed $DATA, or -1. */
    private static long firstCluster(RecordView view) {
        view.rewind();
        while (view.nextAttribute()) {
            if (view.type() == AttributeType.DATA && view.nameLength() == 0 && !view.resident() && view.has(view.attribute, 0x40)) {
                RunList runs = new RunList();
                runs.add(view, view.runsOffset(), view.next, 0);
                return runs.runs() == 0 ? -1 : runs.lcn(0);
            }
        }
        return -1;
    }

    /** Sectors of the volume: as many as $BadClus spans, else what the site holds but the last one. */
    private long sectors(long mftPlace, int size, int sector) {
        RecordView view = record(mftPlace + (long) BAD_CLUSTERS * size);
        if (view != null) {
            view.rewind();
            while (view.nextAttribute()) {
                if (view.type() == AttributeType.DATA && view.nameLength() > 0 && !view.resident() && view.has(view.attribute, 0x40)
                        && view.realSize() > 0 && view.realSize() <= site.bytes()) {
                    return view.realSize() / sector;
                }
            }
        }
        return Math.max(1, site.bytes() / sector - 1);
    }
}
