package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * The measures of a volume whose boot sector and its copy are both gone, from file records: each knows its own number, so that the place of
 * the table, or of its mirror, follows from any of the first ones ({@link RecordRow}); record 0 names the first cluster of the table and
 * record 1 that of the mirror; $BadClus is as long as the volume. Looked for where formatters put them: $MFT in cluster 4 or 786432 or after
 * a third of the volume, $MFTMirr in cluster 2 (from memory) or in the middle (mkntfs).
 */
final class LostBoot {
    private static final long[] CLUSTERS = {4, 2, 786_432};
    private static final int BAD_CLUSTERS = 8;
    /** Bytes looked at before and behind a place that depends on the size of the volume: two clusters of 64 KiB. */
    private static final int AROUND = 128 << 10;
    private static final int SURE = 4;

    /** The usual size of a cluster, the only one that is tried where little speaks for a volume. */
    private static final int USUAL = 4096;

    private final VolumeSite site;
    private final boolean wide;
    private boolean paired;
    private int records;

    /**
     * For a site.
     *
     * @param blank whether nothing stands over the boot sector
     */
    LostBoot(VolumeSite site, boolean blank) {
        this.site = site;
        this.wide = blank || site.range().first() == 0 || site.type() != null;
    }

    Optional<BootFound> find() {
        List<RecordRow> rows = new ArrayList<>();
        for (long place : places()) {
            RecordRow.at(site, place).ifPresent(rows::add);
        }
        Geometry found = join(rows);
        return found == null ? Optional.empty() : Optional.of(withCopy(found));
    }

    /** Whether the table and its mirror both stand where the other says, with several records: what a later format would have broken. */
    boolean paired() {
        return paired && records >= SURE;
    }

    /** Whether several records agree. */
    boolean sure() {
        return records >= SURE;
    }

    private Set<Long> places() {
        Set<Long> places = new LinkedHashSet<>();
        for (int cluster = wide ? 512 : USUAL; cluster <= (wide ? 65536 : USUAL); cluster *= 2) {
            for (long lcn : CLUSTERS) {
                places.add(lcn * cluster);
            }
        }
        if (site.range().first() == 0 || site.type() != null) {
            around(site.bytes() / 2, places);
            around(site.bytes() / 3, places);
        }
        return places;
    }

    private void around(long middle, Set<Long> places) {
        long from = Math.max(0, middle / FixedBlock.STRIDE * FixedBlock.STRIDE - AROUND);
        Window window = site.window(from, 2 * AROUND);
        for (int at = 0; at < window.length(); at += FixedBlock.STRIDE) {
            if (window.isRead(at, FixedBlock.STRIDE) && window.matches(at, "FILE")) {
                RecordRow.start(site, from + at).ifPresent(places::add);
            }
        }
    }

    /** The row that is the table, and the row that is the mirror; either may be missing, or lack its record 0. */
    private Geometry join(List<RecordRow> rows) {
        RecordRow mirror = rows.stream().filter(RecordRow::mirror).findFirst().orElse(null);
        RecordRow table = rows.stream().filter(row -> row.table() && (mirror == null || row.cluster() == mirror.cluster())).findFirst().orElse(null);
        if (table == null && mirror != null && mirror.tableLcn() > 0) {
            table = RecordRow.at(site, mirror.tableLcn() * mirror.cluster()).filter(row -> row.size() == mirror.size()).orElse(null);
        }
        if (table == null && (mirror == null || mirror.tableLcn() <= 0)) {
            return null;
        }
        RecordRow any = table != null ? table : mirror;
        long mft = table != null ? table.place() / any.cluster() : mirror.tableLcn();
        long copy = table != null && table.mirrorLcn() > 0 ? table.mirrorLcn() : mirror != null ? mirror.place() / any.cluster() : 0;
        paired = table != null && mirror != null && mirror.place() == copy * any.cluster();
        records = (table == null ? 0 : table.records()) + (mirror == null ? 0 : mirror.records());
        int sector = Math.max(FixedBlock.STRIDE, site.image().sectorSize());
        int cluster = Math.max(any.cluster(), sector);
        return new Geometry(site.firstByte(), sector, cluster, any.size(), Math.max(4096, sector), sectors(mft * cluster, any.size(), sector, cluster),
                mft, copy, 0);
    }

    /**
     * The copy of the boot sector, if it stands within a cluster behind the last whole one: $BadClus counts whole clusters only, so the
     * volume may end some sectors later than it tells.
     */
    private BootFound withCopy(Geometry built) {
        long place = site.firstByte() + built.clusters() * built.clusterBytes();
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

    /**
     * Sectors of the volume: what the site holds but the last one, where $BadClus spans as many whole clusters or is lost; else as many as
     * $BadClus spans.
     */
    private long sectors(long table, int size, int sector, int cluster) {
        long room = Math.max(1, site.bytes() / sector - 1);
        RecordView view = RecordRow.record(site, table + (long) BAD_CLUSTERS * size, size);
        if (view == null) {
            return room;
        }
        view.rewind();
        while (view.nextAttribute()) {
            if (view.type() == AttributeType.DATA && view.nameLength() > 0 && !view.resident() && view.has(view.attribute, 0x40)
                    && view.realSize() > 0 && view.realSize() <= site.bytes()) {
                long clusters = view.realSize() / cluster;
                int perCluster = cluster / sector;
                return room / perCluster == clusters ? room : clusters * perCluster;
            }
        }
        return room;
    }
}
