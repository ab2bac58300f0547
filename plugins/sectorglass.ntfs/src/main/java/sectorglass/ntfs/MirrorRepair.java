package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/** The first file records from $MFTMirr where they cannot be used, and the mirror from the records. Source: NTFS-3G libntfs-3g/volume.c. */
final class MirrorRepair {
    private static final int RECORDS = 4;

    private final SectorImage image;
    private final Geometry geometry;
    private final FileTable table;
    private final RepairTexts texts;
    private final List<Repair.Change> forward = new ArrayList<>();
    private final List<Repair.Change> back = new ArrayList<>();

    MirrorRepair(SectorImage image, Geometry geometry, FileTable table, RepairTexts texts) {
        this.image = image;
        this.geometry = geometry;
        this.table = table;
        this.texts = texts;
    }

    List<Repair> propose() {
        int size = geometry.recordBytes();
        if (!geometry.holds(geometry.mirrorLcn(), 1) || geometry.mirrorLcn() == geometry.mftLcn() || size % image.sectorSize() != 0) {
            return List.of();
        }
        for (int number = 0; number < RECORDS; number++) {
            long own = number == 0 ? geometry.clusterByte(geometry.mftLcn()) : table.address(number);
            long copy = geometry.clusterByte(geometry.mirrorLcn()) + (long) number * size;
            if (own < 0 || own % image.sectorSize() != 0 || copy % image.sectorSize() != 0) {
                continue;
            }
            boolean good = sound(own, number);
            boolean copyGood = sound(copy, number);
            if (good != copyGood) {
                copy(good ? own : copy, good ? copy : own, number, good ? back : forward);
            }
        }
        List<Repair> all = new ArrayList<>();
        offer("ntfs.records-from-mirror", forward, List.of(texts.of("against.mirror")), all);
        offer("ntfs.mirror-from-records", back, List.of(), all);
        return all;
    }

    private void offer(String id, List<Repair.Change> changes, List<String> against, List<Repair> all) {
        if (!changes.isEmpty()) {
            changes.sort(Comparator.comparingLong(Repair.Change::firstByte));
            all.add(new Repair(id, texts.of(id + ".title", changes.get(0).firstByte() / image.sectorSize()), texts.of(id + ".reason"), 85, false,
                    changes, against, List.of()));
        }
    }

    private void copy(long from, long to, int number, List<Repair.Change> changes) {
        Window source = image.window(from, geometry.recordBytes());
        SectorEdit edit = new SectorEdit(image, to, geometry.recordBytes());
        edit.put(0, source.raw(0, geometry.recordBytes()), texts.of("why.record-copy", number, from / image.sectorSize()));
        changes.addAll(edit.changes(""));
    }

    /** Read whole, not torn, in use, and of that number. */
    private boolean sound(long place, int number) {
        int size = geometry.recordBytes();
        Window window = image.window(place, size);
        if (!window.isRead(0, size)) {
            return false;
        }
        RecordView view = new RecordView();
        view.load(window.bytes(0, size), 0, size, null, place);
        return view.usable() && view.whole() && view.inUse() && view.isBase() && view.u32(RecordView.ALLOCATED) == size
                && (!view.numbered() || view.u32(RecordView.NUMBER) == number);
    }
}
