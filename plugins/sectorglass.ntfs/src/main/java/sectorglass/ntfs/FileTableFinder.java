package sectorglass.ntfs;

import java.util.HashSet;
import java.util.Set;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * Finds the runs of $MFT: from record 0, from its copy in the mirror, and where both are gone by assuming that the table goes on from
 * where the boot sector points while records that know their own number follow. Extension records of record 0 lie in the part that is
 * already mapped (NTFS-3G volume.c).
 */
final class FileTableFinder {
    /** Bytes looked at when the table must be assumed: at most this many. */
    private static final long MOST_ASSUMED = 1L << 32;
    private static final int MOST_EXTENSIONS = 4096;

    private final SectorImage image;
    private final Geometry geometry;

    FileTableFinder(SectorImage image, Geometry geometry) {
        this.image = image;
        this.geometry = geometry;
    }

    FileTable find() {
        FileTable found = from(geometry.mftLcn(), FileTable.Origin.RECORD_0);
        if (found == null) {
            found = from(geometry.mirrorLcn(), FileTable.Origin.MIRROR);
        }
        if (found == null) {
            found = assumed();
        }
        return found != null ? found : new FileTable(image, geometry, new RunList(), 0, FileTable.Origin.NONE);
    }

    private FileTable from(long lcn, FileTable.Origin origin) {
        if (!geometry.holds(lcn, 1) || lcn == 0) {
            return null;
        }
        return at(geometry.clusterByte(lcn), origin);
    }

    /** The table as a record 0 at that place tells it; null where there is none. */
    FileTable at(long place, FileTable.Origin origin) {
        RecordView view = read(place);
        if (!view.usable() || view.numbered() && view.u32(RecordView.NUMBER) != 0) {
            return null;
        }
        RunList runs = new RunList();
        long[] bytes = {0};
        Set<Long> extensions = new HashSet<>();
        if (!collect(view, runs, bytes, extensions) || runs.runs() == 0) {
            return null;
        }
        if (!extensions.isEmpty()) {
            follow(runs, bytes, extensions, origin);
        }
        return new FileTable(image, geometry, runs, bytes[0], origin);
    }

    private RecordView read(long address) {
        byte[] bytes = new byte[geometry.recordBytes()];
        SectorStates states = image.read(address, bytes, 0, bytes.length);
        RecordView view = new RecordView();
        view.load(bytes, 0, bytes.length, states, address);
        return view;
    }

    /** Takes the unnamed $DATA of a record of the table; false where its first piece is missing from a base record. */
    private boolean collect(RecordView view, RunList runs, long[] bytes, Set<Long> extensions) {
        boolean data = false;
        view.rewind();
        while (view.nextAttribute()) {
            if (view.type() == AttributeType.ATTRIBUTE_LIST) {
                AttributeList.of(image, geometry, view).stream()
                        .filter(e -> e.type() == AttributeType.DATA && e.record() != 0)
                        .limit(MOST_EXTENSIONS).forEach(e -> extensions.add(e.record()));
            } else if (view.type() == AttributeType.DATA && view.nameLength() == 0 && !view.resident()
                    && view.has(view.attribute, 0x40)) {
                runs.add(view, view.runsOffset(), view.next, view.lowestVcn());
                if (view.lowestVcn() == 0) {
                    data = true;
                    bytes[0] = Math.max(0, view.initialisedSize());
                }
            }
        }
        return data || !view.isBase();
    }

    /** Reads extension records as far as the runs known so far reach, until no more can be reached. */
    private void follow(RunList runs, long[] bytes, Set<Long> extensions, FileTable.Origin origin) {
        boolean more = true;
        while (more && !extensions.isEmpty()) {
            more = false;
            for (Long number : Set.copyOf(extensions)) {
                FileTable part = new FileTable(image, geometry, runs, Long.MAX_VALUE, origin);
                RecordView view = new RecordView();
                if (part.address(number) < 0 || !part.load(number, view)) {
                    continue;
                }
                extensions.remove(number);
                if (view.usable() && view.baseNumber() == 0 && !view.isBase()) {
                    collect(view, runs, bytes, new HashSet<>());
                    runs.sort();
                }
                more = true;
            }
        }
    }

    private FileTable assumed() {
        if (!geometry.holds(geometry.mftLcn(), 1) || geometry.mftLcn() == 0) {
            return null;
        }
        int size = geometry.recordBytes();
        long address = geometry.clusterByte(geometry.mftLcn());
        byte[] bytes = new byte[64 << 10];
        RecordView view = new RecordView();
        long good = 0;
        int gap = 0;
        long room = Math.min(MOST_ASSUMED, (geometry.clusters() - geometry.mftLcn()) * geometry.clusterBytes());
        for (long at = 0; at + size <= room && gap < 256; at += bytes.length) {
            int length = (int) Math.min(bytes.length, room - at);
            SectorStates states = image.read(address + at, bytes, 0, length);
            for (int i = 0; i + size <= length && gap < 256; i += size) {
                view.load(bytes, i, size, states, address + at + i);
                long number = (at + i) / size;
                if (view.usable() && (!view.numbered() || view.u32(RecordView.NUMBER) == number || !view.inUse())) {
                    good = number + 1;
                    gap = 0;
                } else {
                    gap++;
                }
            }
        }
        if (good == 0) {
            return null;
        }
        RunList runs = new RunList();
        runs.append(0, geometry.mftLcn(), (good * size + geometry.clusterBytes() - 1) / geometry.clusterBytes());
        return new FileTable(image, geometry, runs, good * size, FileTable.Origin.ASSUMED);
    }
}
