package sectorglass.volumes;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.testkit.Tool;

/** Small volumes that the stock makers write; the test is skipped where the maker is not installed. */
final class MadeVolumes {
    static final String UUID = "11111111-2222-4333-8444-555555555555";
    private static final Map<String, Path> MADE = new HashMap<>();
    private static Path folder;

    private MadeVolumes() {
    }

    static synchronized Path file(String kind) {
        try {
            if (folder == null) {
                folder = Files.createTempDirectory("volumes");
            }
            Path known = MADE.get(kind);
            if (known == null) {
                known = make(kind);
                MADE.put(kind, known);
            }
            return known;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Path sparse(String name, long bytes) throws IOException {
        Path path = folder.resolve(name);
        try (var file = new java.io.RandomAccessFile(path.toFile(), "rw")) {
            file.setLength(bytes);
        }
        return path;
    }

    private static Path make(String kind) throws IOException {
        switch (kind) {
            case "xfs" -> {
                Path path = sparse("xfs.img", 320L << 20);
                Tool.run("mkfs.xfs", "-q", "-f", "-m", "uuid=" + UUID, "-L", "TESTVOL", path.toString()).ok();
                return path;
            }
            case "btrfs" -> {
                Path path = sparse("btrfs.img", 128L << 20);
                Tool.run("mkfs.btrfs", "-q", "-f", "-U", UUID, "-L", "TESTVOL", path.toString()).ok();
                return path;
            }
            case "f2fs" -> {
                Path path = sparse("f2fs.img", 64L << 20);
                Tool.run("mkfs.f2fs", "-q", "-f", "-l", "TESTVOL", "-O", "extra_attr,sb_checksum", path.toString()).ok();
                return path;
            }
            case "swap" -> {
                Path path = sparse("swap.img", 1L << 20);
                Tool.run("mkswap", "-U", UUID, "-L", "TESTSWAP", path.toString()).ok();
                return path;
            }
            case "luks1", "luks2" -> {
                Path path = sparse(kind + ".img", 20L << 20);
                Tool.run(Map.of(), "pw", 20, "cryptsetup", "luksFormat", "-q", "--type", kind, "--uuid", UUID, "--pbkdf", "pbkdf2",
                        "--pbkdf-force-iterations", "1000", path.toString(), "-").ok();
                return path;
            }
            case "iso9660" -> {
                Path path = folder.resolve("iso.img");
                Files.writeString(Files.createDirectories(folder.resolve("t")).resolve("hello.txt"), "hello, world\n");
                Tool.run("genisoimage", "-quiet", "-V", "TESTVOL", "-R", "-J", "-o", path.toString(), folder.resolve("t").toString()).ok();
                return path;
            }
            case "udf" -> {
                Path path = sparse("udf.img", 8L << 20);
                Tool.run("mkudffs", "--utf8", "-l", "TESTVOL", path.toString()).ok();
                return path;
            }
            default -> {
                return Files.write(folder.resolve(kind + ".img"), md(kind));
            }
        }
    }

    /** A member of a mirror as mdadm --examine calls correct: md-1.0, md-1.1, md-1.2 or md-0.90. */
    static byte[] md(String kind) {
        byte[] bytes = new byte[4 << 20];
        ByteBuffer le = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        if (kind.equals("md-0.90")) {
            int at = 4128768;
            int[] head = {0xA92B4EFC, 0, 90, 0, 0, 0x11111111, 1700000000, 1, 2048, 2, 2, 0, 0, 0x22224333, 0x84445555, 0x55555555};
            for (int i = 0; i < head.length; i++) {
                le.putInt(at + 4 * i, head[i]);
            }
            int[] state = {1700000000, 1, 2, 2, 0, 0};
            for (int i = 0; i < state.length; i++) {
                le.putInt(at + 128 + 4 * i, state[i]);
            }
            le.putInt(at + 156, 1);
            le.putInt(at + 152, 0x80A03851);
            return bytes;
        }
        int at = kind.equals("md-1.0") ? 4186112 : kind.equals("md-1.1") ? 0 : 4096;
        le.putInt(at, 0xA92B4EFC).putInt(at + 4, 1);
        byte[] set = new java.math.BigInteger(UUID.replace("-", ""), 16).toByteArray();
        System.arraycopy(set, 0, bytes, at + 16, 16);
        System.arraycopy("h:tests".getBytes(java.nio.charset.StandardCharsets.US_ASCII), 0, bytes, at + 32, 7);
        le.putLong(at + 64, 1700000000L).putInt(at + 72, 1).putLong(at + 80, 2048).putInt(at + 92, 2);
        le.putLong(at + 128, at == 4186112 ? 0 : 32).putLong(at + 136, 2048).putLong(at + 144, at / 512).putLong(at + 152, -1);
        for (int i = 0; i < 16; i++) {
            bytes[at + 168 + i] = (byte) List.of(0x66, 0x66, 0x66, 0x66, 0x77, 0x77, 0x48, 0x88, 0x89, 0x99, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa,
                    0xaa).get(i).intValue();
        }
        le.putLong(at + 192, 1700000000L).putLong(at + 200, 1).putLong(at + 208, -1).putInt(at + 220, 2);
        le.putShort(at + 256, (short) 0).putShort(at + 258, (short) 1);
        le.putInt(at + 216, at == 4186112 ? 0x0CBEFEEF : at == 0 ? 0x0CBEDF1F : 0x0CBEDF27);
        return bytes;
    }
}
