package sectorglass.bench;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.ZoneId;
import java.util.HexFormat;
import java.util.Locale;

import sectorglass.disk.Survey;
import sectorglass.disk.Volume;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.recovery.Extraction;

/**
 * Takes a large file out of volume 1 of an image, SHA-256 included, and copies the result with {@code cp --reflink=never}, by turns, into
 * the same folder; what was written is then read back and hashed again, timed apart. Arguments: the image; the file's path on the volume;
 * a folder with room for three such files; times.
 */
public final class ExtractLoad {

    private ExtractLoad() {
    }

    /** @param args image, path, folder, times */
    public static void main(String[] args) throws IOException, ImageException {
        Path folder = Path.of(args[2]).resolve("extract-load");
        Files.createDirectories(folder);
        double best = Double.MAX_VALUE;
        double bestCopy = Double.MAX_VALUE;
        try (OpenImage image = Images.open(Path.of(args[0]), OpenOptions.DEFAULT)) {
            for (int i = 0; i < Integer.parseInt(args[3]); i++) {
                Path first = folder.resolve("first");
                Path copy = folder.resolve("copy");
                Files.createDirectories(first);
                Extraction.Written[] written = new Extraction.Written[1];
                double seconds = seconds(() -> written[0] = extract(image, args[1], first));
                double again = seconds(() -> copy(written[0].file(), copy));
                String[] hash = new String[1];
                double readBack = seconds(() -> hash[0] = hash(written[0].file()));
                if (!hash[0].equals(written[0].sha256())) {
                    throw new IllegalStateException("what was written is not what was hashed");
                }
                System.out.println(String.format(Locale.ROOT, "%,d bytes: extract %.2f s, cp %.2f s: %.2f of its speed; read back in %.2f s",
                        written[0].bytes(), seconds, again, again / seconds, readBack));
                best = Math.min(best, seconds);
                bestCopy = Math.min(bestCopy, again);
                Files.delete(copy);
                Files.delete(written[0].file());
            }
        }
        System.out.println(String.format(Locale.ROOT, "best of each: extract %.2f s, cp %.2f s: %.2f of its speed", best, bestCopy, bestCopy / best));
    }

    private static double seconds(Runnable work) {
        long begun = System.nanoTime();
        work.run();
        return (System.nanoTime() - begun) / 1e9;
    }

    private static Extraction.Written extract(OpenImage image, String path, Path to) {
        try {
            Volume volume = Survey.of(image, Progress.NONE).volume(1).orElseThrow();
            sectorglass.disk.Files files = volume.capability(sectorglass.disk.Files.class).orElseThrow();
            Extraction.Written[] written = new Extraction.Written[1];
            new Extraction(files, to, new Extraction.Options((byte) 0, false, false, ZoneId.of("UTC")), Progress.NONE)
                    .extract(files.tree(Progress.NONE).find(path).orElseThrow(), one -> written[0] = one);
            return written[0];
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void copy(Path file, Path to) {
        try {
            if (new ProcessBuilder("cp", "--reflink=never", file.toString(), to.toString()).inheritIO().start().waitFor() != 0) {
                throw new IllegalStateException("cp failed");
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String hash(Path file) {
        try (InputStream in = Files.newInputStream(file)) {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            byte[] buffer = new byte[1 << 19];
            for (int n = in.read(buffer); n > 0; n = in.read(buffer)) {
                digest.update(buffer, 0, n);
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
