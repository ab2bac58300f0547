package sectorglass.practice.fault;

import sectorglass.make.MapKind;
import sectorglass.make.VolumeKind;

/** The structures that a kind of fault needs. */
public enum Area {
    /** An ordinary MBR. */
    MBR,
    /** A chain of extended boot records with two logical partitions at least. */
    EBR,
    /** A GPT with its protective MBR. */
    GPT,
    /** An NTFS volume. */
    NTFS,
    /** A volume of FAT12, FAT16 or FAT32. */
    FAT,
    /** A volume of FAT12 or FAT16: its root directory has a fixed place. */
    FAT16,
    /** A FAT32 volume. */
    FAT32,
    /** An exFAT volume. */
    EXFAT,
    /** An ext4 volume. */
    EXT;

    /** Whether a fault of this area lies in a map. */
    public boolean map() {
        return ordinal() <= GPT.ordinal();
    }

    /** Whether a map of this kind has the structures; of logical partitions only its chain knows. */
    public boolean fits(MapKind kind, int logical) {
        return switch (this) {
            case MBR -> kind == MapKind.MBR;
            case EBR -> kind == MapKind.MBR && logical > 1;
            case GPT -> kind == MapKind.GPT;
            default -> false;
        };
    }

    /** Whether a volume of this kind has the structures. */
    public boolean fits(VolumeKind kind) {
        return switch (this) {
            case NTFS -> kind == VolumeKind.NTFS;
            case FAT -> kind == VolumeKind.FAT12 || kind == VolumeKind.FAT16 || kind == VolumeKind.FAT32;
            case FAT16 -> kind == VolumeKind.FAT12 || kind == VolumeKind.FAT16;
            case FAT32 -> kind == VolumeKind.FAT32;
            case EXFAT -> kind == VolumeKind.EXFAT;
            case EXT -> kind == VolumeKind.EXT4;
            default -> false;
        };
    }
}
