package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Map;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.testkit.Tool;
import sectorglass.verify.Checks;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/** Volumes made by mkntfs and ntfscp, the same bytes in every run, and what the tests ask of them. */
final class Volumes {
    static final RuleBook BOOK = new RuleBook(java.util.List.of(new NtfsRules()), Locale.ENGLISH);

    private Volumes() {
    }

    /** An empty volume of 64 MiB, clusters of 4096 bytes, label FIXED. */
    static Path empty(Path folder) throws IOException {
        Tool.require("mkntfs");
        Path image = folder.resolve("F0.img");
        if (!Files.exists(image)) {
            make(image, 64 << 20, 512, 4096);
        }
        return image;
    }

    static void make(Path image, long bytes, int sector, int cluster) throws IOException {
        try (java.io.RandomAccessFile file = new java.io.RandomAccessFile(image.toFile(), "rw")) {
            file.setLength(bytes);
        }
        Tool.run("mkntfs", "-F", "-Q", "-T", "-s", "" + sector, "-c", "" + cluster, "-p", "0", "-H", "0", "-S", "0", "-L", "FIXED",
                image.toString()).ok();
    }

    /** The same with four files and two further streams. */
    static Path withFiles(Path folder) throws IOException {
        Tool.require("mkntfs", "ntfscp", "faketime");
        Path image = folder.resolve("F1.img");
        if (Files.exists(image)) {
            return image;
        }
        Files.copy(empty(folder), image);
        Files.write(folder.resolve("small.txt"), "The quick brown fox.\n".repeat(10).getBytes(StandardCharsets.US_ASCII));
        Files.write(folder.resolve("data.bin"), hashes(3200));
        Files.write(folder.resolve("one.bin"), steps(4096, 7));
        Files.write(folder.resolve("two.bin"), steps(20000, 11));
        byte[] ads = new byte[10240];
        for (int i = 0; i < ads.length; i++) {
            ads[i] = (byte) i;
        }
        Files.write(folder.resolve("ads.bin"), ads);
        for (String name : new String[] {"small.txt", "data.bin", "one.bin", "two.bin"}) {
            copy(image, folder.resolve(name), name, null);
        }
        copy(image, folder.resolve("ads.bin"), "data.bin", "extra");
        copy(image, folder.resolve("small.txt"), "small.txt", "note");
        return image;
    }

    private static void copy(Path image, Path file, String name, String stream) {
        String[] command = stream == null
                ? new String[] {"faketime", "-f", "2024-01-02 03:04:05", "ntfscp", image.toString(), file.toString(), name}
                : new String[] {"faketime", "-f", "2024-01-02 03:04:05", "ntfscp", "-N", stream, image.toString(), file.toString(), name};
        Tool.run(Map.of("TZ", "UTC"), null, 20, command).ok();
    }

    static byte[] hashes(int count) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (int i = 0; i < count; i++) {
            all.writeBytes(sha256(new byte[] {(byte) i, (byte) (i >> 8), (byte) (i >> 16), (byte) (i >> 24)}));
        }
        return all.toByteArray();
    }

    static byte[] steps(int length, int step) {
        byte[] bytes = new byte[length];
        for (int i = 0; i < length; i++) {
            bytes[i] = (byte) (step * i + (step == 7 ? 3 : 5));
        }
        return bytes;
    }

    static byte[] sha256(byte[] bytes) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(bytes);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    static String hash(byte[] bytes) {
        return HexFormat.of().formatHex(sha256(bytes));
    }

    /** The volume that fills an image. */
    static NtfsVolume open(SectorImage image) {
        var claim = new NtfsProvider().recognise(new VolumeSite(image, image.all(), null));
        assertTrue(claim.isPresent(), "no NTFS volume recognised");
        return (NtfsVolume) new NtfsProvider().open(claim.get());
    }

    static Findings verify(SectorImage image, Level level) {
        Checks checks = new Checks();
        open(image).check(level, checks, Progress.NONE);
        return Findings.of(checks, BOOK, image.sectorSize());
    }
}
