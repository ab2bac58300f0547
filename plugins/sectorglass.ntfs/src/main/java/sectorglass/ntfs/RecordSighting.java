package sectorglass.ntfs;

import java.time.Instant;
import java.util.Map;
import java.util.Optional;

import sectorglass.disk.Sighting;
import sectorglass.disk.SightingBuilder;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * A file record that stands somewhere. Record 0, of $MFT or of its mirror, knows in which cluster the table begins and how large a
 * cluster is; record 1 knows where the mirror is; $BadClus is as long as the volume. Of the two starts that follow, the one counts at
 * which the other table stands.
 */
final class RecordSighting {
    private static final int BAD_CLUSTERS = 8;
    private static final int LARGEST = 4096;
    private static final long MOST_BYTES = 1L << 60;

    private final SectorImage image;
    private final long at;

    RecordSighting(SectorImage image, long at) {
        this.image = image;
        this.at = at;
    }

    Optional<Sighting> sighting() {
        RecordView view = record(at);
        if (view == null) {
            return Optional.empty();
        }
        int size = view.size;
        Instant latest = walk(view);
        boolean whole = view.end() == RecordView.End.MARK;
        if (!whole && view.fix() != FixedBlock.Fix.GOOD) {
            return Optional.empty();
        }
        SightingBuilder sighting = new SightingBuilder("ntfs", "file-records", at, size).format("ntfs_file_record", Map.of())
                .copy(Sighting.Copy.RECORDS).fact("recordBytes", (long) size)
                .fact("firstNumber", view.numbered() ? view.u32(RecordView.NUMBER) : null).latest(latest)
                .because(whole, Sighting.Reason.FIELDS_AGREE)
                .tried(view.fix() == FixedBlock.Fix.GOOD, Sighting.Reason.CHECKSUM_HOLDS, Sighting.Reason.CHECKSUM_FAILS, "ntfs.record.fixup", at);
        if (view.inUse() && view.isBase() && (!view.numbered() || view.u32(RecordView.NUMBER) == 0)) {
            table(view, size, sighting);
        }
        return Optional.of(sighting.build());
    }

    /** A usable record, or null. */
    private RecordView record(long place) {
        if (place < 0 || place > image.bytes() - 1024) {
            return null;
        }
        byte[] bytes = new byte[LARGEST];
        SectorStates states = image.read(place, bytes, 0, bytes.length);
        RecordView view = new RecordView();
        view.begin(bytes, 0, LARGEST);
        long said = (bytes[RecordView.ALLOCATED] & 0xFF) | (bytes[RecordView.ALLOCATED + 1] & 0xFF) << 8;
        if (said != 512 && said != 1024 && said != 2048 && said != LARGEST) {
            return null;
        }
        view.load(bytes, 0, (int) said, states, place);
        return view.usable() ? view : null;
    }

    /** Goes over the attributes to the end; gives the latest date of the standard information, or null. */
    private static Instant walk(RecordView view) {
        Instant latest = null;
        view.rewind();
        while (view.nextAttribute()) {
            int value = view.type() == AttributeType.STANDARD_INFORMATION && view.resident() ? view.valueOffset() : -1;
            if (value >= 0 && view.valueLength() >= 0x20 && view.has(value, 0x20)) {
                for (int field = 0; field < 0x18; field += 8) {
                    Instant date = NameValue.instant(view.u64(value + field));
                    if (date != null && (latest == null || date.isAfter(latest))) {
                        latest = date;
                    }
                }
            }
        }
        return latest;
    }

    /** Where the unnamed content of a record begins, and bytes per cluster by its sizes; both 0 where it does not tell. */
    private record First(long lcn, long clusterBytes) { }

    private static First first(RecordView view) {
        view.rewind();
        while (view.nextAttribute()) {
            if (view.type() == AttributeType.DATA && view.nameLength() == 0 && !view.resident() && view.has(view.attribute, 0x40)
                    && view.lowestVcn() == 0) {
                RunList runs = new RunList();
                runs.add(view, view.runsOffset(), view.next, 0);
                long clusters = runs.end();
                long allocated = view.allocatedSize();
                if (runs.runs() == 0 || runs.lcn(0) <= 0 || clusters <= 0 || allocated <= 0) {
                    return null;
                }
                long per = view.highestVcn() + 1 == clusters && allocated % clusters == 0 ? allocated / clusters : 0;
                return new First(runs.lcn(0), per);
            }
        }
        return null;
    }

    private void table(RecordView view, int size, SightingBuilder sighting) {
        First mft = first(view);
        RecordView next = record(at + size);
        First mirror = next == null || next.size != size || !next.inUse() ? null : first(next);
        if (mft == null || mft.clusterBytes < 512 || mft.clusterBytes > 2 << 20 || Long.bitCount(mft.clusterBytes) != 1
                || mft.lcn > MOST_BYTES / mft.clusterBytes) {
            return;
        }
        long cluster = mft.clusterBytes;
        long asTable = at - mft.lcn * cluster;
        boolean mirrorThere = mirror != null && mirror.lcn <= MOST_BYTES / cluster && zero(asTable + mirror.lcn * cluster);
        long asMirror = mirror == null || mirror.lcn > MOST_BYTES / cluster ? Long.MIN_VALUE : at - mirror.lcn * cluster;
        boolean tableThere = asMirror != Long.MIN_VALUE && zero(asMirror + mft.lcn * cluster);
        sighting.fact("clusterBytes", cluster).fact("mftCluster", mft.lcn).fact("mirrorCluster", mirror == null ? null : mirror.lcn)
                .because(mirrorThere || tableThere, Sighting.Reason.TARGET_FOUND).because(mirrorThere || tableThere, Sighting.Reason.KNOWS_ITS_PLACE);
        if (mirrorThere || !tableThere) {
            sighting.vote("table-place", asTable, bytes(at, size, cluster), mirrorThere ? 3 : 1);
        }
        if (tableThere && (!mirrorThere || asMirror == asTable) || !mirrorThere && asMirror != Long.MIN_VALUE) {
            sighting.vote("mirror-place", asMirror, bytes(asMirror + mft.lcn * cluster, size, cluster), tableThere ? 3 : 1);
        }
    }

    /** Whether record 0 stands at the image byte. */
    private boolean zero(long place) {
        RecordView view = record(place);
        return view != null && (!view.numbered() || view.u32(RecordView.NUMBER) == 0);
    }

    /**
     * Bytes of the partition by $BadClus, which is as long as all clusters of the volume: the copy of the boot sector follows them, and
     * partitions are whole clusters long (common practice, no source).
     */
    private long bytes(long table, int size, long cluster) {
        RecordView view = record(table + (long) BAD_CLUSTERS * size);
        if (view != null && (!view.numbered() || view.u32(RecordView.NUMBER) == BAD_CLUSTERS)) {
            view.rewind();
            while (view.nextAttribute()) {
                if (view.type() == AttributeType.DATA && view.nameLength() > 0 && !view.resident() && view.has(view.attribute, 0x40)
                        && view.realSize() > 0 && view.realSize() < MOST_BYTES) {
                    return view.realSize() + cluster;
                }
            }
        }
        return Sighting.UNKNOWN;
    }
}
