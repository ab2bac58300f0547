package sectorglass.tests;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;

import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.testkit.Corpus;

/**
 * Images with something planted that no image of the corpus holds. Layouts: UEFI 2.10, sections 5.2 and 5.3; Linux kernel
 * block/partitions/mac.h and ldm.h; Microsoft FAT specification, BPB_ExtFlags; Linux kernel documentation, ext4 superblock
 * (s_last_orphan); Linux kernel fs/ntfs3/ntfs.h, MFT_REC.
 *
 * @param name of the test
 * @param recipe writes it
 */
record Planted(String name, Recipe recipe) {
    private static final int LDM_SECTORS = 32768;
    private static final long WRAP = 1L << 28;

    /** Writes a file. */
    @FunctionalInterface
    interface Recipe {
        void write(RandomAccessFile file) throws IOException;
    }

    /** The image; the caller closes it, and its file lies in the folder until it is written anew. */
    OpenImage image(Path folder) throws IOException {
        Path path = folder.resolve("planted.raw");
        Files.deleteIfExists(path);
        try (RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw")) {
            recipe.write(file);
        }
        try {
            return Images.open(path, OpenOptions.DEFAULT.withSectorSize(512));
        } catch (ImageException e) {
            throw new IOException(e);
        }
    }

    static List<Planted> all() {
        return List.of(
                new Planted("GPT entry erased", file -> corpus(file, "probe-partitions", "gpt", 1024, "00".repeat(16))),
                new Planted("GPT entries of 256 bytes", file -> corpus(file, "probe-partitions", "gpt", 512 + 80, "40000000" + "00010000")),
                new Planted("GPT with hybrid MBR", file -> corpus(file, "probe-partitions", "gpt", 462, "00000200" + "07feffff" + "22000000" + "de070000")),
                new Planted("GPT under an MBR of its own", file -> corpus(file, "probe-partitions", "gpt", 450, "07feffff" + "08000000" + "00080000")),
                new Planted("GPT of 4096-byte sectors", Planted::largeSectors),
                new Planted("FAT32 with one active FAT", file -> corpus(file, "probe-volumes", "fat32_xp_none", 40, "8300")),
                new Planted("ext2 with a broken list of orphans", file -> corpus(file, "probe-volumes", "ext2", 1024 + 0xE8, "ffffff00")),
                new Planted("NTFS with an extension record", file -> corpus(file, "ntfs-volumes", "small-clusters-512-subdirs",
                        16384 + 5 * 1024 + 0x20, "0300000000000300")),
                new Planted("Apple partition map", Planted::apple),
                new Planted("dynamic disk", Planted::ldm),
                new Planted("addresses of 28 bits", Planted::wrapped));
    }

    private static void put(RandomAccessFile file, long at, String hex) throws IOException {
        file.seek(at);
        file.write(HexFormat.of().parseHex(hex));
    }

    private static void corpus(RandomAccessFile file, String folder, String name, long at, String hex) throws IOException {
        Path packed = Corpus.files(folder, "").stream().filter(p -> p.getFileName().toString().startsWith(name + ".img.")).findFirst().orElseThrow();
        Path into = Files.createTempDirectory("planted");
        Path image = Corpus.unpack(packed, into);
        file.write(Files.readAllBytes(image));
        Files.delete(image);
        Files.delete(into);
        put(file, at, hex);
    }

    /** The header stands at byte 4096 and not at byte 512. */
    private static void largeSectors(RandomAccessFile file) throws IOException {
        corpus(file, "probe-partitions", "gpt", 510, "55aa");
        byte[] header = new byte[512];
        file.seek(512);
        file.readFully(header);
        file.seek(512);
        file.write(new byte[512]);
        file.seek(4096);
        file.write(header);
    }

    private static void apple(RandomAccessFile file) throws IOException {
        int[][] parts = {{1, 63}, {64, 8000}, {8064, 8320}};
        String[] types = {"Apple_partition_map", "Apple_HFS", "Apple_Free"};
        file.setLength(8 << 20);
        put(file, 0, "45520200" + "00004000");
        for (int i = 0; i < 3; i++) {
            byte[] entry = new byte[96];
            ByteBuffer.wrap(entry).putShort((short) 0x504D).putShort((short) 0).putInt(3).putInt(parts[i][0]).putInt(parts[i][1]);
            System.arraycopy(types[i].getBytes(StandardCharsets.US_ASCII), 0, entry, 48, types[i].length());
            file.seek(512L * (i + 1));
            file.write(entry);
        }
    }

    private static void ldm(RandomAccessFile file) throws IOException {
        file.setLength(LDM_SECTORS * 512L);
        put(file, 440, "07000000");
        put(file, 446, "00000000" + "42000000" + "3f000000" + "30750000");
        put(file, 510, "55aa");
        for (long at : new long[] {6, 30720 + 1856, LDM_SECTORS - 1}) {
            ByteBuffer head = ByteBuffer.allocate(512);
            head.put("PRIVHEAD".getBytes(StandardCharsets.US_ASCII)).putInt(12, 2 << 16 | 11);
            head.put(48, "01234567-89ab-cdef-0123-456789abcdef".getBytes(StandardCharsets.US_ASCII));
            head.putInt(287, 63).putInt(295, 30000).putInt(303, 30720).putInt(311, 2048);
            int sum = 0;
            for (byte b : head.array()) {
                sum += b & 0xFF;
            }
            file.seek(at * 512);
            file.write(head.putInt(8, sum).array());
        }
    }

    /** The sectors behind 2^28 are those from the start once more. */
    private static void wrapped(RandomAccessFile file) throws IOException {
        file.setLength((WRAP + 2048) * 512);
        for (long base : new long[] {0, WRAP * 512}) {
            put(file, base + 446, "00000000" + "83000000" + "00080000" + "00f0ff0f");
            put(file, base + 510, "55aa");
        }
    }
}
