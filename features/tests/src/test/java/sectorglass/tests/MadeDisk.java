package sectorglass.tests;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import sectorglass.testkit.Tool;

/**
 * A disk made by sfdisk and the formatters of each file system, which therefore are the source of what is expected of it.
 *
 * @param file the image
 * @param sectorSize bytes per sector
 * @param volumes what was made where, by address
 */
record MadeDisk(Path file, int sectorSize, List<Made> volumes) {
    private static final int MIB = 1 << 20;

    /** A volume as it was made. */
    record Made(String kind, long firstLba, long sectors) {

        static Made of(String kind, long firstMib, long mib, int sectorSize) {
            return new Made(kind, firstMib * MIB / sectorSize, mib * MIB / sectorSize);
        }
    }

    /** GPT with five volumes; with sectors of 4096 bytes no table is written, since sfdisk writes one for the sector size of its host. */
    static MadeDisk gpt(Path folder, int sectorSize) throws IOException {
        Tool.require("sfdisk", "mkntfs", "mkfs.fat", "mkfs.exfat", "mkfs.ext4");
        Path disk = blank(folder.resolve("gpt-" + sectorSize + ".img"), sectorSize == 512 ? 180 : 440);
        long fat = sectorSize == 512 ? 40 : 300;
        List<Made> made = List.of(Made.of("ntfs", 1, 30, sectorSize), Made.of("exfat", 31, 30, sectorSize), Made.of("ext4", 61, 40, sectorSize),
                Made.of("fat16", 101, 30, sectorSize), Made.of("fat32", 131, fat, sectorSize));
        if (sectorSize == 512) {
            table(disk, "gpt", made, "");
        }
        for (Made one : made) {
            format(disk, one, sectorSize);
        }
        return new MadeDisk(disk, sectorSize, made);
    }

    /** MBR with a primary partition and three logical ones. */
    static MadeDisk mbr(Path folder) throws IOException {
        Tool.require("sfdisk", "mkntfs", "mkfs.fat", "mkfs.ext4");
        Path disk = blank(folder.resolve("mbr.img"), 200);
        List<Made> made = List.of(Made.of("ntfs", 1, 30, 512), Made.of("fat16", 32, 30, 512), Made.of("ext4", 63, 40, 512),
                Made.of("ntfs", 104, 30, 512));
        StringBuilder script = new StringBuilder("label: dos\n2048,61440,7\n63488,339968,5\n");
        for (Made one : made.subList(1, made.size())) {
            script.append(one.firstLba + "," + one.sectors + "," + (one.kind.equals("ntfs") ? "7" : one.kind.equals("ext4") ? "83" : "6") + "\n");
        }
        Tool.run(Map.of(), script.toString(), 20, "sfdisk", "-q", "--no-tell-kernel", disk.toString()).ok();
        for (Made one : made) {
            format(disk, one, 512);
        }
        return new MadeDisk(disk, 512, made);
    }

    static Path blank(Path file, long mib) throws IOException {
        try (RandomAccessFile made = new RandomAccessFile(file.toFile(), "rw")) {
            made.setLength(mib * MIB);
        }
        return file;
    }

    private static void table(Path disk, String label, List<Made> volumes, String more) {
        StringBuilder script = new StringBuilder("label: " + label + "\n" + more);
        volumes.forEach(v -> script.append("start=" + v.firstLba + ", size=" + v.sectors + "\n"));
        Tool.run(Map.of(), script.toString(), 20, "sfdisk", "-q", "--no-tell-kernel", disk.toString()).ok();
    }

    /** Makes a volume in a file of its own and puts it at its place. */
    static void format(Path disk, Made volume, int sectorSize) throws IOException {
        Path part = Files.createTempFile(disk.getParent(), "part", ".img");
        blank(part, volume.sectors * sectorSize / MIB);
        String size = Integer.toString(sectorSize);
        String hidden = Long.toString(volume.firstLba);
        List<String> command = switch (volume.kind) {
            case "ntfs" -> List.of("mkntfs", "-q", "-F", "-f", "-s", size, "-p", hidden, "-H", "16", "-S", "63", part.toString());
            case "fat32" -> List.of("mkfs.fat", "-F", "32", "-s", "1", "-S", size, "-h", hidden, part.toString());
            case "fat16" -> List.of("mkfs.fat", "-F", "16", "-s", sectorSize == 512 ? "4" : "1", "-S", size, "-h", hidden, part.toString());
            case "exfat" -> List.of("mkfs.exfat", part.toString());
            case "ext4" -> List.of("mkfs.ext4", "-q", "-F", part.toString());
            default -> throw new IllegalArgumentException(volume.kind);
        };
        Tool.run(Map.of(), null, 60, command.toArray(new String[0])).ok();
        put(disk, volume.firstLba * sectorSize, Files.readAllBytes(part));
        Files.delete(part);
    }

    /** What to do with a destroyed disk. */
    @FunctionalInterface
    interface Use {
        void with(MadeDisk disk) throws Exception;
    }

    /** Fills ranges of sectors with zeros, gives the disk away, and puts the bytes back. */
    void destroyed(Use use, long... firstAndCount) throws Exception {
        List<byte[]> kept = new ArrayList<>();
        try (RandomAccessFile disk = new RandomAccessFile(file.toFile(), "rw")) {
            for (int i = 0; i < firstAndCount.length; i += 2) {
                byte[] was = new byte[(int) (firstAndCount[i + 1] * sectorSize)];
                disk.seek(firstAndCount[i] * sectorSize);
                disk.readFully(was);
                disk.seek(firstAndCount[i] * sectorSize);
                disk.write(new byte[was.length]);
                kept.add(was);
            }
            try {
                use.with(this);
            } finally {
                for (int i = firstAndCount.length - 2; i >= 0; i -= 2) {
                    disk.seek(firstAndCount[i] * sectorSize);
                    disk.write(kept.get(i / 2));
                }
            }
        }
    }

    static void put(Path disk, long at, byte[] bytes) throws IOException {
        try (RandomAccessFile out = new RandomAccessFile(disk.toFile(), "rw")) {
            out.seek(at);
            for (int i = 0; i < bytes.length; i += 4096) {
                int count = Math.min(4096, bytes.length - i);
                boolean zero = true;
                for (int j = i; j < i + count && zero; j++) {
                    zero = bytes[j] == 0;
                }
                if (zero && bytes.length > MIB) {
                    out.seek(at + i + count);
                } else {
                    out.seek(at + i);
                    out.write(bytes, i, count);
                }
            }
        }
    }

    /** The volumes that were made, without those at the given places in the list. */
    List<Made> without(int... indexes) {
        List<Made> left = new ArrayList<>(volumes);
        for (int i = indexes.length - 1; i >= 0; i--) {
            left.remove(indexes[i]);
        }
        return left;
    }
}
