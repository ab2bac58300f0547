package sectorglass.ksycheck;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.testkit.Tool;

/** Bytes that tools of the operating system made, by the id of the spec that describes them. A tool that is missing gives no sample. */
final class Samples {
    private static final int WINDOW = 4096;

    private final Map<String, List<byte[]>> byId = new HashMap<>();
    private final Path folder;

    private Samples(Path folder) {
        this.folder = folder;
    }

    static Samples make(Path folder) throws IOException {
        Samples samples = new Samples(folder);
        samples.partitions();
        samples.fat();
        samples.exfat();
        samples.ntfs();
        samples.ext();
        samples.swap();
        return samples;
    }

    List<byte[]> of(String id) {
        return byId.getOrDefault(id, List.of());
    }

    private Path empty(String name, long bytes) throws IOException {
        Path image = folder.resolve(name);
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.setLength(bytes);
        }
        return image;
    }

    private boolean run(String input, String... command) {
        try {
            return Tool.run(Map.of("MKE2FS_DEVICE_SECTSIZE", "512"), input, 20, command).status() == 0;
        } catch (org.opentest4j.TestAbortedException e) {
            return false; // not installed: no sample
        }
    }

    private void add(String id, Path image, long at, int length) throws IOException {
        byte[] bytes = new byte[length];
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "r")) {
            file.seek(at);
            int n = file.read(bytes);
            if (n == length) {
                byId.computeIfAbsent(id, any -> new ArrayList<>()).add(bytes);
            }
        }
    }

    private void partitions() throws IOException {
        Path mbr = empty("mbr.img", 64 << 20);
        if (run("label: dos\nstart=2048, size=20480, type=7, bootable\nstart=22528, size=20480, type=c\nstart=43008, type=5\nstart=45056, "
                + "size=2048, type=83\n", "sfdisk", mbr.toString())) {
            add("mbr", mbr, 0, 512);
            add("ebr", mbr, 43008L * 512, 512);
        }
        Path gpt = empty("gpt.img", 64 << 20);
        if (run("label: gpt\nstart=2048, size=20480, type=U, name=boot\nsize=20480\n", "sfdisk", gpt.toString())) {
            add("mbr", gpt, 0, 512);
            add("gpt_header", gpt, 512, 512);
            add("gpt_entries", gpt, 1024, 128 * 128);
        }
    }

    private void fat() throws IOException {
        for (String bits : List.of("12", "16", "32")) {
            Path image = empty("fat" + bits + ".img", bits.equals("12") ? 4 << 20 : bits.equals("16") ? 32 << 20 : 300 << 20);
            if (run(null, "mkfs.fat", "-F", bits, "-n", "SAMPLE", image.toString())) {
                add(bits.equals("32") ? "fat32_boot_sector" : "fat_boot_sector", image, 0, 512);
                if (bits.equals("32")) {
                    add("fat32_fs_info", image, 512, 512);
                    add("fat32_table", image, 32 * 512, WINDOW);
                }
            }
        }
    }

    private void exfat() throws IOException {
        Path image = empty("exfat.img", 64 << 20);
        if (run(null, "mkfs.exfat", image.toString())) {
            add("exfat_boot_sector", image, 0, 512);
            add("exfat_extended_boot_sector", image, 512, 512);
            add("exfat_oem_parameters", image, 9 * 512, 512);
            add("exfat_boot_checksum", image, 11 * 512, 512);
        }
    }

    private void ntfs() throws IOException {
        Path image = empty("ntfs.img", 16 << 20);
        if (run(null, "mkntfs", "-F", "-q", "-Q", "-c", "4096", "-s", "512", "-p", "0", "-H", "255", "-S", "63", image.toString())) {
            add("ntfs_boot_sector", image, 0, 512);
            for (int record = 0; record < 12; record++) {
                add("ntfs_file_record", image, 4L * 4096 + record * 1024L, 1024);
            }
        }
    }

    private void ext() throws IOException {
        Path image = empty("ext.img", 32 << 20);
        if (run(null, "mke2fs", "-q", "-F", "-t", "ext4", "-b", "4096", image.toString())) {
            add("ext_superblock", image, 1024, 1024);
            add("ext_group_descriptor", image, 4096, 64);
        }
    }

    private void swap() throws IOException {
        Path image = empty("swap.img", 1 << 20);
        if (run(null, "mkswap", "-p", "4096", image.toString())) {
            add("swap_header", image, 0, WINDOW);
        }
    }
}
