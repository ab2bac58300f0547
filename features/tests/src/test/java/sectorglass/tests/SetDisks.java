package sectorglass.tests;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes disks of sets by rule, since a set can be made with its own tools only where the kernel has their drivers. Superblocks: Linux
 * kernel include/uapi/linux/raid/md_p.h, struct mdp_superblock_1; labels and text: LVM2 text format layout header.
 */
final class SetDisks {
    static final int MIB = 1 << 20;
    /** Byte of a member where its data begins. */
    static final int DATA = MIB;
    private static final String GROUP = "aaaaaa-bbbb-cccc-dddd-eeee-ffff-gggggg";

    private SetDisks() {
    }

    /**
     * A superblock of version 1.2 at byte 4096 of a member.
     *
     * @param events how many changes the disk has seen
     */
    static void md(Path member, int level, int layout, int chunkSectors, int disks, int place, long dataBytes, long events) throws IOException {
        int roles = 32;
        ByteBuffer sb = ByteBuffer.allocate(256 + 2 * roles).order(ByteOrder.LITTLE_ENDIAN);
        sb.putInt(0, 0xA92B4EFC).putInt(4, 1);
        for (int i = 0; i < 16; i++) {
            sb.put(16 + i, (byte) (0x10 + level + i)).put(168 + i, (byte) (0x60 + place));
        }
        sb.put(32, "shop:data".getBytes(StandardCharsets.US_ASCII));
        sb.putLong(64, 1700000000L).putInt(72, level).putInt(76, layout).putLong(80, level == 0 || level == -1 ? 0 : dataBytes / 512)
                .putInt(88, chunkSectors).putInt(92, disks).putLong(128, DATA / 512).putLong(136, dataBytes / 512).putLong(144, 8)
                .putInt(160, place).putLong(192, 1700000000L).putLong(200, events).putLong(208, -1).putInt(220, roles);
        for (int i = 0; i < roles; i++) {
            sb.putShort(256 + 2 * i, (short) (i < disks ? i : 0xFFFF));
        }
        long sum = 0;
        for (int at = 0; at < sb.capacity(); at += 4) {
            sum += sb.getInt(at) & 0xFFFFFFFFL;
        }
        sb.putInt(216, (int) ((sum & 0xFFFFFFFFL) + (sum >>> 32)));
        put(member, 4096, sb.array());
    }

    /** A physical volume: label in sector 1, metadata area of 1 MiB - 4 KiB at byte 4096 with its text at 512 of it. */
    static void physical(Path file, long start, String id, long bytes, String... texts) throws IOException {
        ByteBuffer label = ByteBuffer.allocate(512).order(ByteOrder.LITTLE_ENDIAN);
        label.put(0, "LABELONE".getBytes(StandardCharsets.US_ASCII)).putLong(8, 1).putInt(20, 32);
        label.put(24, "LVM2 001".getBytes(StandardCharsets.US_ASCII)).put(32, id.replace("-", "").getBytes(StandardCharsets.US_ASCII));
        label.putLong(64, bytes).putLong(72, MIB).putLong(80, 0).putLong(104, 4096).putLong(112, MIB - 4096);
        label.putInt(16, crc(label.array(), 20, 492));
        put(file, start + 512, label.array());
        int at = 512;
        byte[] last = null;
        int lastAt = 0;
        for (String text : texts) {
            last = (text + "\0").getBytes(StandardCharsets.UTF_8);
            lastAt = at;
            put(file, start + 4096 + at, last);
            at += (last.length + 511) / 512 * 512;
        }
        ByteBuffer area = ByteBuffer.allocate(512).order(ByteOrder.LITTLE_ENDIAN);
        area.put(4, new byte[] {0x20, 0x4C, 0x56, 0x4D, 0x32, 0x20, 0x78, 0x5B, 0x35, 0x41, 0x25, 0x72, 0x30, 0x4E, 0x2A, 0x3E});
        area.putInt(20, 1).putLong(24, 4096).putLong(32, MIB - 4096).putLong(40, lastAt).putLong(48, last.length).putInt(56, crc(last, 0, last.length));
        area.putInt(0, crc(area.array(), 4, 508));
        put(file, start + 4096, area.array());
    }

    /** Where the text of a physical volume begins that {@link #physical} wrote first. */
    static long firstText(long start) {
        return start + 4096 + 512;
    }

    /**
     * A metadata text of the group "shop" with extents of 1 MiB.
     *
     * @param disks identities of the physical volumes, 64 extents each
     * @param volumes sections of logical volumes
     */
    static String text(int seqno, List<String> disks, String... volumes) {
        StringBuilder text = new StringBuilder("shop {\nid = \"" + GROUP + "\"\nseqno = " + seqno
                + "\nformat = \"lvm2\"\nstatus = [\"RESIZEABLE\", \"READ\", \"WRITE\"]\nflags = []\nextent_size = 2048\nmax_lv = 0\nmax_pv = 0\n"
                + "metadata_copies = 0\n\nphysical_volumes {\n");
        for (int i = 0; i < disks.size(); i++) {
            text.append("\npv").append(i).append(" {\nid = \"").append(disks.get(i)).append("\"\ndevice = \"/dev/none\"\n\nstatus = [\"ALLOCATABLE\"]\n")
                    .append("flags = []\ndev_size = 133120\npe_start = 2048\npe_count = 64\n}\n");
        }
        text.append("}\n\nlogical_volumes {\n");
        for (String volume : volumes) {
            text.append('\n').append(volume);
        }
        return text.append("}\n\n}\n# Generated by a test\ncontents = \"Text Format Volume Group\"\nversion = 1\n\ndescription = \"\"\n")
                .append("creation_host = \"none\"\ncreation_time = 1700000000\n").toString();
    }

    /** A logical volume of segments {@code "start count type [areas]"}; an area is {@code "pv0", 3}. */
    static String logical(String name, String... segments) {
        StringBuilder text = new StringBuilder(name + " {\nid = \"" + "vvvvvv-0000-0000-0000-0000-0000-00000" + name.charAt(0)
                + "\"\nstatus = [\"READ\", \"WRITE\", \"VISIBLE\"]\nflags = []\ncreation_time = 1700000000\nsegment_count = " + segments.length + "\n");
        for (int i = 0; i < segments.length; i++) {
            String[] parts = segments[i].split(" ", 4);
            int areas = parts[3].split(",").length / 2;
            text.append("\nsegment").append(i + 1).append(" {\nstart_extent = ").append(parts[0]).append("\nextent_count = ").append(parts[1])
                    .append("\n\ntype = \"").append(parts[2]).append("\"\nstripe_count = ").append(areas)
                    .append(areas > 1 ? "\nstripe_size = 128" : "").append("\n\nstripes = [\n").append(parts[3]).append("\n]\n}\n");
        }
        return text.append("}\n").toString();
    }

    /** CRC-32 as LVM2 has it: start value F597A6CF, not inverted at the end. */
    static int crc(byte[] bytes, int from, int length) {
        int crc = 0xF597A6CF;
        for (int i = from; i < from + length; i++) {
            crc ^= bytes[i] & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) != 0 ? crc >>> 1 ^ 0xEDB88320 : crc >>> 1;
            }
        }
        return crc;
    }

    /** An empty file of a length. */
    static Path sparse(Path file, long bytes) throws IOException {
        try (RandomAccessFile made = new RandomAccessFile(file.toFile(), "rw")) {
            made.setLength(bytes);
        }
        return file;
    }

    static void put(Path file, long at, byte[] bytes) throws IOException {
        try (RandomAccessFile to = new RandomAccessFile(file.toFile(), "rw")) {
            to.seek(at);
            to.write(bytes);
        }
    }

    /** Spreads bytes over the data areas of disks, and gives what each disk holds. */
    static List<byte[]> spread(byte[] all, int disks, int chunk, boolean parity) {
        int data = parity ? disks - 1 : disks;
        int rows = (all.length + chunk * data - 1) / (chunk * data);
        List<byte[]> held = new ArrayList<>();
        for (int i = 0; i < disks; i++) {
            held.add(new byte[rows * chunk]);
        }
        for (int row = 0; row < rows; row++) {
            // left symmetric: parity moves down from the last disk, data goes on behind it
            int parityDisk = disks - 1 - row % disks;
            for (int d = 0; d < data; d++) {
                int disk = parity ? (parityDisk + 1 + d) % disks : d;
                int from = (row * data + d) * chunk;
                for (int i = 0; i < chunk && from + i < all.length; i++) {
                    held.get(disk)[row * chunk + i] = all[from + i];
                    if (parity) {
                        held.get(parityDisk)[row * chunk + i] ^= all[from + i];
                    }
                }
            }
        }
        return held;
    }

    /**
     * Spreads bytes over disks with two parities, layout left symmetric: the second parity stands behind the first, data goes on behind
     * both. The second parity is built byte by byte from its definition, the sum of 2 to the power n times chunk n (H. P. Anvin, "The
     * mathematics of RAID-6").
     */
    static List<byte[]> spreadTwice(byte[] all, int disks, int chunk) {
        int data = disks - 2;
        int rows = (all.length + chunk * data - 1) / (chunk * data);
        List<byte[]> held = new ArrayList<>();
        for (int i = 0; i < disks; i++) {
            held.add(new byte[rows * chunk]);
        }
        for (int row = 0; row < rows; row++) {
            int p = disks - 1 - row % disks;
            int q = (p + 1) % disks;
            for (int i = row * chunk; i < (row + 1) * chunk; i++) {
                int sum = 0;
                int weighted = 0;
                for (int d = data - 1; d >= 0; d--) {
                    int from = (row * data + d) * chunk + i - row * chunk;
                    int value = from < all.length ? all[from] & 0xFF : 0;
                    held.get((p + 2 + d) % disks)[i] = (byte) value;
                    sum ^= value;
                    weighted = (weighted << 1 ^ ((weighted & 0x80) != 0 ? 0x11D : 0)) & 0xFF ^ value;
                }
                held.get(p)[i] = (byte) sum;
                held.get(q)[i] = (byte) weighted;
            }
        }
        return held;
    }

    /** Changes bytes of the superblock of a member and mends its checksum. */
    static void change(Path member, int at, byte[] bytes) throws IOException {
        put(member, 4096 + at, bytes);
        ByteBuffer sb = ByteBuffer.allocate(256 + 2 * 32).order(ByteOrder.LITTLE_ENDIAN);
        try (RandomAccessFile from = new RandomAccessFile(member.toFile(), "r")) {
            from.seek(4096);
            from.readFully(sb.array());
        }
        sb.putInt(216, 0);
        long sum = 0;
        for (int word = 0; word < sb.capacity(); word += 4) {
            sum += sb.getInt(word) & 0xFFFFFFFFL;
        }
        sb.putInt(216, (int) ((sum & 0xFFFFFFFFL) + (sum >>> 32)));
        put(member, 4096, sb.array());
    }

    /** Bytes of a file system of 24 MiB with some files. */
    static byte[] ext4(Path folder, Path files) throws IOException {
        Path made = sparse(folder.resolve("ext4-" + System.nanoTime()), 24L * MIB);
        sectorglass.testkit.Tool.run("mkfs.ext4", "-q", "-F", "-L", "STORE", "-d", files.toString(), made.toString()).ok();
        byte[] all = Files.readAllBytes(made);
        Files.delete(made);
        return all;
    }
}
