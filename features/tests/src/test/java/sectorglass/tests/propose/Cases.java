package sectorglass.tests.propose;

import java.util.List;

import sectorglass.tests.propose.Case.Unknown;
import sectorglass.tests.propose.Case.With;
import sectorglass.tests.propose.Case.Wound;

/** All cases of the table in docs/proposals.md. */
final class Cases {
    private static final int MIB = Disks.MIB / 512;

    private Cases() {
    }

    static List<Case> all() {
        return List.of(
                exact("gpt", "LBA 0 zeroed", zero(0, 1)),
                exact("gpt", "LBA 1 zeroed", zero(1, 1)),
                exact("gpt", "LBA 1 to 33 zeroed", zero(1, 33)),
                exact("gpt", "LBA 0 to 33 zeroed", zero(0, 34)),
                exact("gpt", "LBA 2 zeroed", zero(2, 1)),
                exact("gpt", "last sector zeroed", zero(-1, 1)),
                exact("gpt", "backup entries zeroed", zero(-33, 32)),
                exact("gpt", "last 33 sectors zeroed", zero(-33, 33)),
                exact("gpt", "LBA 0 and last 33 sectors zeroed", zero(0, 1), zero(-33, 33)),
                exact("gpt", "a byte of the disk GUID in LBA 1 changed", flip(1, 56)),
                exact("gpt", "a byte of the first entry changed", flip(2, 33)),
                exact("gpt", "a byte of the backup's first entry changed", flip(-33, 17)),
                exact("gpt", "55 AA of LBA 0 zeroed", bytes(0, 510, 2, With.ZERO)),
                exact("gpt", "protective slot zeroed", bytes(0, 446, 16, With.ZERO)),
                exact("gpt", "LBA 0 zeroed, three bytes of LBA 1 zeroed", zero(0, 1), bytes(1, 40, 3, With.ZERO)),
                exact("gpt", "LBA 1 and backup entries zeroed", zero(1, 1), zero(-33, 32)),
                exact("gpt", "LBA 2 to 33 and last sector zeroed", zero(2, 32), zero(-1, 1)),
                exact("gpt", "LBA 1 to 33 overwritten with random bytes", bytes(1, 0, 33 * 512, With.RANDOM)),
                some("gpt", "LBA 0 to 33 overwritten with text", List.of(Unknown.BOOT_CODE), bytes(0, 0, 34 * 512, With.TEXT)),
                some("gpt", "LBA 1 and last sector zeroed", List.of(Unknown.DISK_GUID), zero(1, 1), zero(-1, 1)),
                some("gpt", "LBA 1 to 33 and last 33 sectors zeroed", List.of(Unknown.DISK_GUID, Unknown.ENTRY), zero(1, 33), zero(-33, 33)),
                exact("gpt", "LBA 1 to 33 and NTFS boot sector zeroed", zero(1, 33), zero(MIB, 1)),
                exact("gpt-parted", "LBA 1 to 33 zeroed", zero(1, 33)),
                exact("gpt-parted", "last 33 sectors zeroed", zero(-33, 33)),
                exact("gpt-parted", "LBA 1 to 33 and FAT32 boot sector zeroed", zero(1, 33), zero(MIB, 1)),
                exact("gpt-4096", "LBA 0 zeroed", large(0, 1)),
                exact("gpt-4096", "LBA 1 to 5 zeroed", large(1, 5)),
                exact("gpt-4096", "last 5 sectors zeroed", large(-5, 5)),
                exact("gpt-4096", "LBA 0 to 5 zeroed", large(0, 6)),
                some("mbr", "LBA 0 zeroed", List.of(Unknown.SIGNATURE, Unknown.ACTIVE), zero(0, 1)),
                some("mbr", "LBA 0 overwritten with text", List.of(Unknown.SIGNATURE, Unknown.ACTIVE, Unknown.BOOT_CODE), bytes(0, 0, 512, With.TEXT)),
                exact("mbr", "55 AA of LBA 0 zeroed", bytes(0, 510, 2, With.ZERO)),
                exact("mbr", "first sector in slot 2 changed", bytes(0, 446 + 16 + 8, 2, With.FLIP)),
                some("mbr", "LBA 0 and NTFS boot sector zeroed", List.of(Unknown.SIGNATURE, Unknown.ACTIVE), zero(0, 1), zero(41L * MIB, 1)),
                some("mbr-fdisk", "LBA 0 zeroed", List.of(Unknown.SIGNATURE), zero(0, 1)),
                some("mbr-logical", "LBA 0 zeroed", List.of(Unknown.SIGNATURE), zero(0, 1)),
                exact("mbr-logical", "first EBR zeroed", zero(18432, 1)),
                exact("mbr-logical", "second EBR zeroed", zero(53248, 1)),
                exact("mbr-logical", "last EBR zeroed", zero(88064, 1)),
                some("mbr-logical", "second EBR overwritten with random bytes", List.of(Unknown.BOOT_CODE), bytes(53248, 0, 512, With.RANDOM)),
                exact("mbr-logical", "55 AA of the second EBR zeroed", bytes(53248, 510, 2, With.ZERO)),
                exact("mbr-logical", "link of the first EBR changed", bytes(18432, 446 + 16 + 8, 3, With.FLIP)),
                some("mbr-logical", "LBA 0 and second EBR zeroed", List.of(Unknown.SIGNATURE), zero(0, 1), zero(53248, 1)),
                exact("ntfs", "boot sector zeroed", zero(0, 1)),
                exact("ntfs", "boot sector overwritten with random bytes", bytes(0, 0, 512, With.RANDOM)),
                exact("ntfs", "copy of the boot sector zeroed", zero(-1, 1)),
                some("ntfs", "boot sector and copy zeroed", List.of(Unknown.SERIAL), zero(0, 1), zero(-1, 1)),
                exact("ntfs", "boot sector and record 0 zeroed", zero(0, 1), zero(32, 2)),
                some("ntfs", "boot sector, copy and record 0 zeroed", List.of(Unknown.SERIAL), zero(0, 1), zero(-1, 1), zero(32, 2)),
                some("ntfs", "boot sector and copy overwritten with random bytes, records 0 to 3 zeroed", List.of(Unknown.RANDOM_SERIAL),
                        bytes(0, 0, 512, With.RANDOM), bytes(-1, 0, 512, With.RANDOM), zero(32, 8)),
                some("ntfs", "boot sector, copy and mirror zeroed", List.of(Unknown.SERIAL), zero(0, 1), zero(-1, 1), zero(16376, 8)),
                some("gpt", "NTFS boot sector, copy and record 0 zeroed", List.of(Unknown.SERIAL), zero(MIB, 1), zero(MIB + 16383, 1), zero(MIB + 32, 2)),
                exact("fat32", "boot sector zeroed", zero(0, 1)),
                exact("fat32", "backup boot sector zeroed", zero(6, 1)),
                some("fat32", "FSInfo zeroed", List.of(Unknown.of("next free cluster", "$^")), zero(1, 1)),
                some("fat32", "boot sector and backup zeroed", List.of(Unknown.SERIAL), zero(0, 1), zero(6, 1)),
                some("fat16", "boot sector zeroed", List.of(Unknown.SERIAL), zero(0, 1)),
                some("fat12", "boot sector zeroed", List.of(Unknown.SERIAL), zero(0, 1)),
                some("fat32", "boot sector overwritten with random bytes, backup zeroed", List.of(Unknown.RANDOM_SERIAL), bytes(0, 0, 512, With.RANDOM), zero(6, 1)),
                some("fat32", "all reserved sectors zeroed", List.of(Unknown.SERIAL, Unknown.of("next free cluster", "$^")), zero(0, 32)),
                some("fat16", "boot sector overwritten with random bytes", List.of(Unknown.RANDOM_SERIAL), bytes(0, 0, 512, With.RANDOM)),
                some("gpt-parted", "FAT32 boot sector overwritten with random bytes, its backup zeroed", List.of(Unknown.RANDOM_SERIAL),
                        bytes(MIB, 0, 512, With.RANDOM), zero(MIB + 6, 1)),
                some("gpt-parted", "FAT32 boot sector and backup overwritten with random bytes, LBA 0 to 33 zeroed", List.of(Unknown.RANDOM_SERIAL),
                        bytes(MIB, 0, 512, With.RANDOM), bytes(MIB + 6, 0, 512, With.RANDOM), zero(0, 34)),
                some("mbr", "LBA 0, FAT32 boot sector and backup zeroed", List.of(Unknown.SIGNATURE, Unknown.ACTIVE, Unknown.SERIAL), zero(0, 1),
                        zero(MIB, 1), zero(MIB + 6, 1)),
                exact("gpt", "LBA 0 to 33 not read", unread(0, 34)),
                exact("gpt", "last 33 sectors not read", unread(-33, 33)),
                exact("gpt-4096", "LBA 0 to 5 not read", new Wound(0, 0, 6 * 4096, With.UNREAD)),
                some("mbr-logical", "LBA 0 not read", List.of(Unknown.SIGNATURE), unread(0, 1)),
                exact("mbr-logical", "second EBR not read", unread(53248, 1)),
                exact("ntfs", "boot sector not read", unread(0, 1)),
                some("ntfs", "boot sector and copy not read", List.of(Unknown.SERIAL), unread(0, 1), unread(-1, 1)),
                some("fat32", "boot sector and backup not read", List.of(Unknown.SERIAL), unread(0, 1), unread(6, 1)),
                exact("exfat", "main boot region not read", unread(0, 12)),
                exact("exfat", "main boot region zeroed, a byte of FatOffset in the backup changed", zero(0, 12), flip(12, 80)),
                exact("exfat", "boot sector zeroed, sectors 13 to 22 of the backup zeroed", zero(0, 1), zero(13, 10)),
                exact("exfat", "boot sector overwritten with random bytes, sectors 13 to 16 too", bytes(0, 0, 512, With.RANDOM),
                        bytes(13, 0, 4 * 512, With.RANDOM)),
                exact("exfat", "sectors 1 to 8 and checksum of the backup zeroed", zero(1, 8), zero(23, 1)),
                exact("exfat", "main checksum and backup boot sector zeroed", zero(11, 1), zero(12, 1)),
                exact("exfat", "both checksum sectors zeroed", zero(11, 1), zero(23, 1)),
                some("exfat", "both boot regions overwritten with random bytes", List.of(Unknown.RANDOM_SERIAL), bytes(0, 0, 24 * 512, With.RANDOM)),
                exact("exfat", "boot sector zeroed", zero(0, 1)),
                exact("exfat", "main boot region zeroed", zero(0, 12)),
                exact("exfat", "backup boot region zeroed", zero(12, 12)),
                exact("exfat", "a byte of ClusterHeapOffset changed", flip(0, 88)),
                some("exfat", "both boot regions zeroed", List.of(Unknown.SERIAL), zero(0, 24)));
    }

    private static Case exact(String disk, String damage, Wound... wounds) {
        return new Case(disk, damage, List.of(wounds), List.of(), true);
    }

    private static Case some(String disk, String damage, List<Unknown> unknown, Wound... wounds) {
        return new Case(disk, damage, List.of(wounds), unknown, false);
    }

    private static Wound zero(long lba, int sectors) {
        return new Wound(lba, 0, sectors * 512, With.ZERO);
    }

    private static Wound unread(long lba, int sectors) {
        return new Wound(lba, 0, sectors * 512, With.UNREAD);
    }

    private static Wound large(long lba, int sectors) {
        return new Wound(lba, 0, sectors * 4096, With.ZERO);
    }

    private static Wound flip(long lba, int at) {
        return new Wound(lba, at, 1, With.FLIP);
    }

    private static Wound bytes(long lba, int at, int bytes, With with) {
        return new Wound(lba, at, bytes, with);
    }
}
