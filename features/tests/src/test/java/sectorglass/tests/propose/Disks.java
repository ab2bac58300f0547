package sectorglass.tests.propose;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.testkit.Tool;

/** Disks made by sfdisk, fdisk, parted and mkfs.*, each once. All volumes are small and hold one folder. */
final class Disks {
    static final int MIB = 1 << 20;
    private static final String BASIC = "EBD0A0A2-B9E5-4433-87C0-68B6B72699C7";

    private final Path folder;
    private final Map<String, Disk> made = new HashMap<>();

    /**
     * A disk.
     *
     * @param file the image
     * @param sectorSize bytes per sector
     * @param volumes kind, first byte and bytes of each
     */
    record Disk(Path file, int sectorSize, List<Place> volumes) { }

    /** Where a volume stands. */
    record Place(String kind, long first, long bytes) { }

    Disks(Path folder) {
        this.folder = folder;
    }

    Disk disk(String name) throws IOException {
        Disk known = made.get(name);
        if (known == null) {
            known = make(name);
            made.put(name, known);
        }
        return known;
    }

    private Disk make(String name) throws IOException {
        return switch (name) {
            case "gpt" -> gpt();
            case "gpt-parted" -> parted();
            case "gpt-4096" -> large();
            case "mbr" -> mbr();
            case "mbr-fdisk" -> fdisk();
            case "mbr-logical" -> logical();
            default -> volume(name);
        };
    }

    private Path file(String name, int mib) throws IOException {
        Path file = folder.resolve(name + ".img");
        try (RandomAccessFile out = new RandomAccessFile(file.toFile(), "rw")) {
            out.setLength((long) mib * MIB);
        }
        return file;
    }

    private static void table(Path file, String script) {
        Tool.run(Map.of(), script, 20, "sfdisk", "-q", "--no-reread", file.toString()).ok();
    }

    private Disk gpt() throws IOException {
        Path file = file("gpt", 40);
        table(file, "label: gpt\nstart=2048,size=16384,type=" + BASIC + ",name=Archive\nstart=18432,size=32768,type=" + BASIC
                + "\nstart=51200,size=16384,type=L,name=home\n");
        return fill(file, 512, List.of(new Place("ntfs", MIB, 8 * MIB), new Place("fat16", 9 * MIB, 16 * MIB), new Place("ext4", 25 * MIB, 8 * MIB)));
    }

    private Disk parted() throws IOException {
        Path file = file("gpt-parted", 64);
        Tool.run("parted", "-s", file.toString(), "mklabel", "gpt", "mkpart", "first", "fat32", "1MiB", "41MiB", "mkpart", "second", "ext4",
                "41MiB", "57MiB").ok();
        return fill(file, 512, List.of(new Place("fat32", MIB, 40 * MIB), new Place("ext4", 41 * MIB, 16 * MIB)));
    }

    private Disk large() throws IOException {
        Path file = file("gpt-4096", 64);
        Tool.run(Map.of(), "g\nn\n1\n256\n4351\nn\n2\n4352\n8447\nw\n", 20, "fdisk", "-b", "4096", file.toString());
        return fill(file, 4096, List.of(new Place("ext4", MIB, 16 * MIB), new Place("ntfs", 17 * MIB, 16 * MIB)));
    }

    private Disk mbr() throws IOException {
        Path file = file("mbr", 64);
        table(file, "label: dos\nstart=2048,size=81920,type=c,bootable\nstart=83968,size=16384,type=7\nstart=100352,size=16384,type=7\n");
        return fill(file, 512, List.of(new Place("fat32", MIB, 40 * MIB), new Place("ntfs", 41 * MIB, 8 * MIB), new Place("exfat", 49 * MIB, 8 * MIB)));
    }

    private Disk fdisk() throws IOException {
        Path file = file("mbr-fdisk", 48);
        Tool.run(Map.of(), "o\nn\np\n1\n2048\n34815\nt\n83\nn\np\n2\n34816\n67583\nw\n", 20, "fdisk", file.toString()).ok();
        return fill(file, 512, List.of(new Place("ext4", MIB, 16 * MIB), new Place("ext4", 17 * MIB, 16 * MIB)));
    }

    private Disk logical() throws IOException {
        Path file = file("mbr-logical", 64);
        table(file, "label: dos\nstart=2048,size=16384,type=7\nstart=18432,size=112640,type=5\nstart=20480,size=32768,type=83\n"
                + "start=55296,size=32768,type=e\nstart=90112,size=40960,type=83\n");
        return fill(file, 512, List.of(new Place("ntfs", MIB, 8 * MIB), new Place("ext4", 10 * MIB, 16 * MIB), new Place("fat16", 27 * MIB, 16 * MIB),
                new Place("ext4", 44 * MIB, 20 * MIB)));
    }

    private Disk volume(String kind) throws IOException {
        int mib = kind.equals("fat32") ? 40 : kind.equals("fat12") ? 4 : 16;
        Path file = file(kind, mib);
        return fill(file, 512, List.of(new Place(kind, 0, (long) mib * MIB)));
    }

    private Disk fill(Path file, int sectorSize, List<Place> places) throws IOException {
        for (Place place : places) {
            Path volume = Files.createTempFile(folder, "volume", ".img");
            try (RandomAccessFile out = new RandomAccessFile(volume.toFile(), "rw")) {
                out.setLength(place.bytes());
            }
            format(place, volume, sectorSize);
            copy(volume, 0, place.bytes(), file, place.first());
            Files.delete(volume);
        }
        return new Disk(file, sectorSize, places);
    }

    private static void format(Place place, Path volume, int sectorSize) {
        String start = Long.toString(place.first() / sectorSize);
        String path = volume.toString();
        switch (place.kind()) {
            case "ntfs" -> Tool.run("mkntfs", "-F", "-Q", "-q", "-s", Integer.toString(sectorSize), "-p", start, "-H", "255", "-S", "63", path).ok();
            case "exfat" -> Tool.run("mkfs.exfat", path).ok();
            case "ext4" -> Tool.run("mke2fs", "-q", "-F", "-t", "ext4", path).ok();
            case "fat12", "fat16", "fat32" -> {
                Tool.run("mkfs.fat", "-F", place.kind().substring(3), "-s", place.kind().equals("fat32") ? "1" : "4", "-h", start, "-n", "ARCHIVE", path).ok();
                Tool.run("mmd", "-i", path, "::/letters").ok();
            }
            default -> throw new IllegalArgumentException(place.kind());
        }
    }

    /** Copies bytes; zeros become holes. */
    static void copy(Path from, long fromByte, long bytes, Path to, long toByte) throws IOException {
        byte[] buffer = new byte[1 << 16];
        byte[] zero = new byte[1 << 16];
        try (FileChannel in = FileChannel.open(from, StandardOpenOption.READ);
                FileChannel out = FileChannel.open(to, StandardOpenOption.WRITE, StandardOpenOption.CREATE)) {
            for (long at = 0; at < bytes; at += buffer.length) {
                int length = (int) Math.min(buffer.length, bytes - at);
                ByteBuffer part = ByteBuffer.wrap(buffer, 0, length);
                while (part.hasRemaining() && in.read(part, fromByte + at + part.position()) >= 0) {
                    // until the part is full
                }
                if (!java.util.Arrays.equals(buffer, 0, length, zero, 0, length)) {
                    out.write(ByteBuffer.wrap(buffer, 0, length), toByte + at);
                }
            }
            if (out.size() < toByte + bytes) {
                out.write(ByteBuffer.allocate(1), toByte + bytes - 1);
            }
        }
    }

    /** Writes a file; zeros become holes. */
    static Path write(Path file, byte[] bytes) throws IOException {
        byte[] zero = new byte[1 << 14];
        Files.deleteIfExists(file);
        try (RandomAccessFile out = new RandomAccessFile(file.toFile(), "rw")) {
            out.setLength(bytes.length);
            for (int at = 0; at < bytes.length; at += zero.length) {
                int length = Math.min(zero.length, bytes.length - at);
                if (!java.util.Arrays.equals(bytes, at, at + length, zero, 0, length)) {
                    out.seek(at);
                    out.write(bytes, at, length);
                }
            }
        }
        return file;
    }
}
