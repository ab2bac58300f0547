package sectorglass.partition.repair;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Evidence;
import sectorglass.disk.VolumeInfo;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.partition.mbr.SectorZero;

/**
 * Volumes found that may stand in a table. A volume that names its own LBA counts; one that does not counts only where it begins on a
 * boundary of 1 MiB and LBA 0 holds nothing else (blank, or not read): images of volumes in an archive or a file fail one of both.
 */
record FoundTable(List<Evidence.FoundVolume> volumes) {
    private static final long MIB = 1L << 20;
    /** First sector of the first partition on disks made for tracks of 63 sectors: common practice, no source. */
    private static final long TRACK = 63;

    static FoundTable of(Evidence evidence) {
        SectorImage image = evidence.image();
        SectorZero.Kind zero = SectorZero.of(image).kind();
        boolean empty = zero == SectorZero.Kind.BLANK || zero == SectorZero.Kind.UNREAD || zero == SectorZero.Kind.MBR;
        boolean placed = evidence.found().stream().anyMatch(Evidence.FoundVolume::placed);
        List<Evidence.FoundVolume> taken = new ArrayList<>();
        for (Evidence.FoundVolume found : evidence.found()) {
            SectorRange range = range(found);
            boolean inside = range.first() > 0 && range.count() > 0 && range.end() <= image.sectors();
            boolean aligned = range.first() * image.sectorSize() % MIB == 0 || range.first() == TRACK;
            if (inside && (found.placed() || aligned && (empty || placed)) && clear(taken, range)) {
                taken.add(found);
            }
        }
        return new FoundTable(List.copyOf(taken));
    }

    private static boolean clear(List<Evidence.FoundVolume> taken, SectorRange range) {
        return taken.stream().noneMatch(other -> range(other).overlaps(range));
    }

    /** The sectors of a volume, by its own size. */
    static SectorRange range(Evidence.FoundVolume found) {
        VolumeInfo info = found.volume().info();
        SectorRange site = found.volume().site().range();
        return info.range() != null ? info.range() : site;
    }

    /** The usual MBR type for a volume. Source: UEFI 2.10, section 5.2.2 names none; common practice, no source. */
    static int type(Evidence.FoundVolume found) {
        return switch (found.volume().info().kind()) {
            case "ntfs", "exfat" -> 0x07;
            case "fat12" -> 0x01;
            case "fat16" -> 0x0E;
            case "fat32" -> 0x0C;
            case "swap" -> 0x82;
            case "hfs", "hfsplus" -> 0xAF;
            case "lvm2" -> 0x8E;
            case "md" -> 0xFD;
            default -> 0x83;
        };
    }

    /** The usual GPT type for a volume: basic data, swap, LVM, RAID or file-system data of Linux. */
    static String guid(Evidence.FoundVolume found) {
        return switch (found.volume().info().kind()) {
            case "ntfs", "exfat", "fat12", "fat16", "fat32" -> "ebd0a0a2-b9e5-4433-87c0-68b6b72699c7";
            case "swap" -> "0657fd6d-a4ab-43c4-84e5-0933c84b4f4f";
            case "lvm2" -> "e6d6d379-f507-44c2-a23c-238f2a3df928";
            case "md" -> "a19d880f-05fc-4d3b-a006-743f0f84911e";
            case "hfs", "hfsplus" -> "48465300-0000-11aa-aa11-00306543ecac";
            case "apfs" -> "7c3457ef-0000-11aa-aa11-00306543ecac";
            default -> "0fc63daf-8483-4772-8e79-3d69d8477de4";
        };
    }
}
