package sectorglass.testkit;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.channels.FileChannel;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.stream.Stream;

import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.apache.commons.compress.compressors.bzip2.BZip2CompressorInputStream;
import org.apache.commons.compress.compressors.gzip.GzipCompressorInputStream;
import org.apache.commons.compress.compressors.xz.XZCompressorInputStream;
import org.junit.jupiter.api.Assumptions;

/**
 * The image corpus, which lies outside the project: the system property {@code corpus} holds its absolute path. Unset: the test
 * is skipped, and counted as such. Set but missing: an error.
 */
public final class Corpus {

    private Corpus() {
    }

    /** A folder of the corpus; skips the calling test where the property is unset. */
    public static Path folder(String name) {
        String root = System.getProperty("corpus", "");
        Assumptions.assumeFalse(root.isBlank(), "no corpus: property corpus is not set");
        Path folder = Path.of(root).resolve(name);
        if (!Files.isDirectory(folder)) {
            throw new IllegalStateException("corpus is set but " + folder + " is not a folder");
        }
        return folder;
    }

    /** Whether the corpus is set: for test factories that must not skip as a whole. */
    public static boolean present() {
        return !System.getProperty("corpus", "").isBlank();
    }

    /** The files of a folder whose names end so, in order of their names; never empty. */
    public static List<Path> files(String folder, String ending) {
        Path path = folder(folder);
        try (Stream<Path> all = Files.list(path)) {
            List<Path> found = all.filter(p -> p.getFileName().toString().endsWith(ending)).sorted().toList();
            if (found.isEmpty()) {
                throw new IllegalStateException("no *" + ending + " in " + path);
            }
            return found;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Unpacks an image ({@code .xz}, {@code .gz}, {@code .bz2}, {@code .tar.xz} with one file) into a folder as a sparse file, or
     * gives the file itself where it is not packed.
     */
    public static Path unpack(Path packed, Path into) {
        String name = packed.getFileName().toString();
        if (!name.matches(".*\\.(xz|gz|bz2)")) {
            return packed;
        }
        Path image = into.resolve(name.replaceFirst("(\\.tar)?\\.(xz|gz|bz2)$", ""));
        try (InputStream in = open(packed)) {
            writeSparse(in, image);
        } catch (IOException e) {
            throw new UncheckedIOException(packed.toString(), e);
        }
        return image;
    }

    private static InputStream open(Path packed) throws IOException {
        InputStream raw = new BufferedInputStream(Files.newInputStream(packed), 1 << 16);
        String name = packed.getFileName().toString();
        InputStream plain = name.endsWith(".xz") ? new XZCompressorInputStream(raw)
                : name.endsWith(".gz") ? new GzipCompressorInputStream(raw) : new BZip2CompressorInputStream(raw);
        if (!name.contains(".tar.")) {
            return plain;
        }
        TarArchiveInputStream tar = new TarArchiveInputStream(plain);
        for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
            if (entry.isFile()) {
                return tar;
            }
        }
        throw new IOException("no file in " + packed);
    }

    private static void writeSparse(InputStream in, Path image) throws IOException {
        byte[] block = new byte[1 << 16];
        long at = 0;
        try (FileChannel out = FileChannel.open(image, StandardOpenOption.CREATE, StandardOpenOption.WRITE,
                StandardOpenOption.TRUNCATE_EXISTING)) {
            for (int n = in.readNBytes(block, 0, block.length); n > 0; n = in.readNBytes(block, 0, block.length)) {
                if (!zero(block, n)) {
                    out.write(ByteBuffer.wrap(block, 0, n), at);
                }
                at += n;
            }
            if (out.size() < at) {
                out.write(ByteBuffer.wrap(new byte[1]), at - 1);
            }
        }
    }

    private static boolean zero(byte[] block, int n) {
        for (int i = 0; i < n; i++) {
            if (block[i] != 0) {
                return false;
            }
        }
        return true;
    }
}
