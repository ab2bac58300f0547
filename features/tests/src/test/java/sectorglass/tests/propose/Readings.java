package sectorglass.tests.propose;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;

import sectorglass.testkit.Tool;

/** What reference utilities read of a disk: its table, and each volume taken out of it. */
final class Readings {

    private Readings() {
    }

    /** Output of each utility by its name and what it was asked of; paths taken out. */
    static Map<String, String> of(Disks.Disk disk, Path image, Path scratch) throws IOException {
        Map<String, String> all = new LinkedHashMap<>();
        String path = image.toString();
        if (disk.volumes().get(0).first() > 0) {
            if (disk.sectorSize() == 512) {
                all.put("sfdisk --json", text(Tool.run("sfdisk", "--json", path), path));
            } else {
                all.put("fdisk -b 4096 -l", text(Tool.run("fdisk", "-b", "4096", "-o", "Start,End,Sectors,Type-UUID,UUID,Name", "-l", path), path));
            }
            all.put("partx", text(Tool.run("partx", "-b", "--sector-size", Integer.toString(disk.sectorSize()), "-P", "-o",
                    "NR,START,SECTORS,TYPE,NAME,UUID", path), path));
        }
        all.put("blkid -p", text(Tool.run("blkid", "-p", "-S", Integer.toString(disk.sectorSize()), path), path));
        for (Disks.Place place : disk.volumes()) {
            Path volume = scratch.resolve("taken.img");
            Files.deleteIfExists(volume);
            try (RandomAccessFile out = new RandomAccessFile(volume.toFile(), "rw")) {
                out.setLength(place.bytes());
            }
            Disks.copy(image, place.first(), place.bytes(), volume, 0);
            volume(place, volume, all);
            Files.delete(volume);
        }
        return all;
    }

    private static void volume(Disks.Place place, Path volume, Map<String, String> all) {
        String path = volume.toString();
        String at = " of the volume at " + place.first() / Disks.MIB + " MiB";
        all.put("blkid -p" + at, text(Tool.run("blkid", "-p", path), path));
        switch (place.kind()) {
            case "ntfs" -> all.put("ntfsinfo -m" + at, text(Tool.run("ntfsinfo", "-m", "-f", path), path));
            case "exfat" -> all.put("fsck.exfat -n" + at, text(Tool.run("fsck.exfat", "-n", path), path));
            case "ext4" -> all.put("e2fsck -fn" + at, text(Tool.run("e2fsck", "-fn", path), path));
            default -> all.put("fsck.fat -n" + at, text(Tool.run("fsck.fat", "-n", path), path));
        }
    }

    private static String text(Tool.Result result, String path) {
        String name = Path.of(path).getFileName().toString();
        return "status " + result.status() + "\n" + result.out().replace(path, "IMAGE").replace(name, "IMAGE");
    }
}
