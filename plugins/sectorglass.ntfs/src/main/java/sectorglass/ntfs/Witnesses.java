package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import sectorglass.disk.VolumeSite;
import sectorglass.disk.Witness;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/**
 * Structures that know their own place: the hidden sectors of the boot sector, and file records of NTFS 3.1, which hold their own number.
 * Records are looked for at a few places of the table, at every sector, so that a table that stands late is met, too.
 */
final class Witnesses {
    private static final int SAMPLES = 12;
    private static final int SAMPLE_BYTES = 16 << 10;
    /** Smaller values are often counted from the start of an extended partition: they prove nothing. */
    private static final long LEAST_HIDDEN = 2049;

    private final FileTable table;
    private final VolumeSite site;

    Witnesses(FileTable table, VolumeSite site) {
        this.table = table;
        this.site = site;
    }

    List<Witness> all() {
        List<Witness> found = new ArrayList<>();
        Window boot = site.window(0, BootSector.LENGTH);
        if (boot.isRead(0, BootSector.LENGTH) && boot.matches(BootSector.OEM_ID, BootSector.OEM)) {
            long hidden = boot.u32le(BootSector.HIDDEN_SECTORS);
            if (hidden >= LEAST_HIDDEN) {
                found.add(new Witness(site.firstByte(), hidden * table.geometry().sectorBytes(), "NTFS boot sector (hidden sectors)"));
            }
        }
        Set<Long> places = new HashSet<>();
        long step = Math.max(1, table.records() / SAMPLES);
        for (long record = 0; record < table.records(); record += step) {
            long address = table.address(record);
            if (address >= 0 && places.add(address / SAMPLE_BYTES)) {
                sample(address, found);
            }
        }
        return found;
    }

    private void sample(long address, List<Witness> found) {
        SectorImage image = table.image();
        int size = table.geometry().recordBytes();
        byte[] bytes = new byte[SAMPLE_BYTES + size];
        long from = Math.max(0, address - SAMPLE_BYTES / 2);
        SectorStates states = image.read(from, bytes, 0, bytes.length);
        RecordView view = new RecordView();
        for (int at = 0; at + size <= bytes.length; at += FixedBlock.STRIDE) {
            if (bytes[at] != 'F' || bytes[at + 1] != 'I') {
                continue;
            }
            byte[] own = java.util.Arrays.copyOfRange(bytes, at, at + size);
            view.load(own, 0, size, states, from + at);
            if (!view.usable() || !view.numbered() || !view.inUse() || view.fix() != FixedBlock.Fix.GOOD) {
                continue;
            }
            long home = table.address(view.u32(RecordView.NUMBER));
            if (home >= 0 && !inMirror(from + at)) {
                found.add(new Witness(from + at, home, "file record " + view.u32(RecordView.NUMBER)));
            }
        }
    }

    private boolean inMirror(long address) {
        Geometry geometry = table.geometry();
        long mirror = geometry.clusterByte(geometry.mirrorLcn());
        return address >= mirror && address < mirror + (long) geometry.mirrorRecords() * geometry.recordBytes();
    }
}
