package sectorglass.make;

import java.util.ArrayList;
import java.util.List;

/** The faults of the demo disk. Each one leaves a second witness from which the right value can be told. */
final class DemoFaults {
    private static final int GPT_ENTRY = 128;
    /** Slots in the root directory of the FAT16 volume. */
    private static final int ROOT_SLOTS = 512;

    private DemoFaults() {
    }

    static List<Damage> of(MadeDisk disk) {
        List<Damage> damages = new ArrayList<>();
        if (disk.description().map() == MapKind.GPT) {
            // second entry, first unit of its name: "Transfer" becomes "Uransfer"; CRC in the header at LBA 1 no longer fits
            damages.add(Damage.flip("gpt.entries.crc32", "One letter of a partition name changed in the primary entry array only.",
                    2L * DemoDisk.SECTOR + GPT_ENTRY + 56, 0x01));
        } else {
            damages.add(Damage.put("mbr.active-count", "The archive is marked active as well as the first volume.", 446 + 32,
                    (byte) 0x80));
        }
        tables(damages, DemoDisk.volume(disk, VolumeKind.FAT16));
        count(damages, DemoDisk.volume(disk, VolumeKind.FAT32));
        exfat(damages, DemoDisk.volume(disk, VolumeKind.EXFAT));
        ntfs(damages, DemoDisk.volume(disk, VolumeKind.NTFS));
        return damages;
    }

    /** LBA 0 is wiped, and twenty bytes of the primary GPT header are gone; the backup tells all of it. */
    static List<Damage> wiped() {
        return List.of(Damage.fill("gpt.protective-mbr", "LBA 0 is wiped.", 0, DemoDisk.SECTOR, 0),
                Damage.fill("gpt.header.crc32", "FirstUsableLBA, LastUsableLBA and the first bytes of DiskGUID in the primary header are zero.", DemoDisk.SECTOR + 40L, 20, 0));
    }

    private static void tables(List<Damage> damages, MadeVolume volume) {
        long heap = volume.place("root") + ROOT_SLOTS * 32L;
        long first = volume.file("Offers/Offer 2025-015 Tarnbrook.pdf").runs().get(0).firstByte();
        long cluster = 2 + (first - heap) / volume.clusterBytes() + 3;
        damages.add(Damage.put("fat.copies-equal", "Entry of cluster " + cluster
                + " set to free in the second table only; the file there is whole in the first.",
                volume.place("table 2") + 2 * cluster, (byte) 0, (byte) 0).inFull());
    }

    private static void count(List<Damage> damages, MadeVolume volume) {
        damages.add(Damage.put("fat32.info-free-count", "The count of free clusters says 4660.", volume.place("info") + 488,
                (byte) 0x34, (byte) 0x12, (byte) 0, (byte) 0).inFull());
    }

    private static void exfat(List<Damage> damages, MadeVolume volume) {
        damages.add(Damage.flip("exfat.backup-checksum", "One byte of the OEM parameters in the backup boot region changed.",
                volume.place("backup boot") + 9L * DemoDisk.SECTOR + 20, 0xFF));
        damages.add(Damage.flip("exfat.set-checksum", "One bit in the size of a picture's entry set flipped.",
                volume.file("PICTURES/100RIDGE/FRM_0204.JPG").entryByte() + 32 + 24, 0x10).inFull());
    }

    private static void ntfs(List<Damage> damages, MadeVolume volume) {
        byte[] hidden = {63, 0, 0, 0};
        long boot = volume.place("boot");
        long backup = volume.place("backup boot");
        damages.add(Damage.by("ntfs.boot.hidden-sectors", "Boot sector and backup say that 63 sectors lie before the volume.",
                boot + 0x1C, 4, disk -> {
                    disk.write(boot + 0x1C, hidden);
                    disk.write(backup + 0x1C, hidden);
                }));
        damages.add(Damage.flip("ntfs.boot.backup-equal", "One byte of the serial number in the backup boot sector changed.",
                backup + 0x48, 0xFF));
        damages.add(Damage.flip("ntfs.record.fixup", "The second half of the file record of catalogue.zip is torn.",
                volume.file("catalogue.zip").entryByte() + 1022, 0xFF).inFull());
        long cluster = (volume.file("Sound/market ambience.wav").runs().get(0).firstByte() - volume.firstByte())
                / volume.clusterBytes();
        damages.add(Damage.by("ntfs.claimed-but-free", "Cluster " + cluster + " of market ambience.wav is marked free.",
                volume.place("bitmap") + cluster / 8, 1, disk -> {
                    byte[] one = disk.read(volume.place("bitmap") + cluster / 8, 1);
                    one[0] &= (byte) ~(1 << cluster % 8);
                    disk.write(volume.place("bitmap") + cluster / 8, one);
                }).inFull());
    }
}
