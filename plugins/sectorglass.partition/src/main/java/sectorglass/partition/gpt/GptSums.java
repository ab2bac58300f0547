package sectorglass.partition.gpt;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;

/** The checksums of a header, computed anew from what stands there. */
public final class GptSums {

    private GptSums() {
    }

    /** Whether a backup belongs to another table than the primary. */
    public static boolean foreign(GptDisk disk, GptHeader header) {
        return GptMaps.foreign(disk, header);
    }

    /**
     * The changes that make both checksums of a header hold.
     *
     * @param arrayWhy reason for the checksum of the entries
     * @param headerWhy reason for the checksum of the header
     * @return empty where they hold, or where something needed was not read or has no legal size
     */
    public static List<Repair.Change> of(GptHeader header, SectorImage image, String arrayWhy, String headerWhy) {
        List<Repair.Change> changes = new ArrayList<>();
        if (!header.found() || !header.sizeLegal() || !header.entries().readable()) {
            return changes;
        }
        try {
            byte[] bytes = header.sector().bytes(0, header.sector().length());
            long array = header.entries().crc(image);
            GptCopies.seal(bytes, (int) header.headerSize(), array);
            changed(header, bytes, GptHeader.CRC, headerWhy, changes);
            changed(header, bytes, GptHeader.ENTRIES_CRC, arrayWhy, changes);
        } catch (UnreadException e) {
            changes.clear();
        }
        return changes;
    }

    private static void changed(GptHeader header, byte[] bytes, int at, String why, List<Repair.Change> changes) {
        byte[] now = java.util.Arrays.copyOfRange(bytes, at, at + 4);
        if (!java.util.Arrays.equals(now, header.sector().bytes(at, 4))) {
            changes.add(new Repair.Change(header.sector().start() + at, now, why));
        }
    }
}
