package sectorglass.make;

import java.util.UUID;

/** The demo disk as a description: 256 MiB with four volumes, under a GPT or an MBR. */
final class DemoDisk {
    static final int SECTOR = 512;
    static final long SECTORS = 524_288;
    private static final long SEED = 20_250_301;
    private static final long MIB = 2048;

    private DemoDisk() {
    }

    private static VolumeDescription paperwork() {
        return new VolumeDescription(VolumeKind.FAT16, "PAPERWORK", 0x5A17C0DEL, 2048, DemoFolders.paperwork());
    }

    private static VolumeDescription transfer() {
        return new VolumeDescription(VolumeKind.FAT32, "TRANSFER", 0x2B1E7A44L, 512, DemoFolders.transfer());
    }

    private static VolumeDescription archive() {
        return new VolumeDescription(VolumeKind.NTFS, "Archive", 0x7C3A91E25D04B866L, 4096, DemoFolders.archive());
    }

    private static VolumeDescription card() {
        return new VolumeDescription(VolumeKind.EXFAT, "CARD COPY", 0x0C4D11E5L, 16384, DemoFolders.card());
    }

    /** The volume of a kind; there is one of each. */
    static MadeVolume volume(MadeDisk disk, VolumeKind kind) {
        return disk.volumes().stream().filter(v -> v != null && v.kind() == kind).findFirst().orElseThrow();
    }

    /** Four partitions of a GPT. */
    static DiskDescription gpt() {
        UUID type = PartitionDescription.BASIC_DATA;
        return DiskDescription.gpt(SECTORS, SECTOR, SEED, null,
                PartitionDescription.gpt(MIB, 16 * MIB, type, null, "Paperwork", 0).with(paperwork()),
                PartitionDescription.gpt(17 * MIB, 48 * MIB, type, null, "Transfer", 0).with(transfer()),
                PartitionDescription.gpt(65 * MIB, 128 * MIB, type, null, "Archive", 0).with(archive()),
                PartitionDescription.gpt(193 * MIB, 62 * MIB, type, null, "Card copy", 0).with(card()));
    }

    /** Two primary and two logical partitions of an MBR. */
    static DiskDescription mbr() {
        return DiskDescription.mbr(SECTORS, SECTOR, SEED, 0x7E57D15C,
                PartitionDescription.primary(MIB, 16 * MIB, 0x06).asActive().with(paperwork()),
                PartitionDescription.container(17 * MIB, 111 * MIB, 0x0F),
                PartitionDescription.logical(18 * MIB, 48 * MIB, 0x0C).with(transfer()),
                PartitionDescription.logical(67 * MIB, 60 * MIB, 0x07).with(card()),
                PartitionDescription.primary(128 * MIB, 127 * MIB, 0x07).with(archive()));
    }
}
