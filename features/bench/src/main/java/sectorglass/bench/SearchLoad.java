package sectorglass.bench;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.zip.GZIPOutputStream;

import sectorglass.disk.Disk;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.recovery.LostSearch;
import sectorglass.recovery.SearchResult;

/**
 * Searches a large image for lost structures and compares the time with that of {@code cat} on the same cached file. Arguments: the
 * image, which is made first where it does not exist; random, zeros, records, compressed or file (as it is); MiB; times.
 */
public final class SearchLoad {
    private static final int MIB = 1 << 20;
    private static final int RECORD = 1024;

    private SearchLoad() {
    }

    /** @param args image, content, MiB, times */
    public static void main(String[] args) throws IOException, ImageException, InterruptedException {
        Path file = Path.of(args[0]);
        if (Files.notExists(file)) {
            make(file, args[1], Long.parseLong(args[2]));
        }
        double bytes = Files.size(file);
        for (int i = 0; i < Integer.parseInt(args[3]); i++) {
            double cat = cat(file);
            long start = System.nanoTime();
            SearchResult result;
            try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withSectorSize(512).withRawAnyway(true).withAlone(true))) {
                result = LostSearch.of(new Disk(image, java.util.List.of(), java.util.List.of(), null), null, Progress.NONE);
            }
            double own = (System.nanoTime() - start) / 1e9;
            long used = (Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory()) / MIB;
            System.out.println(String.format(Locale.ROOT, "%s: cat %.2f s (%.2f GB/s), search %.2f s (%.2f GB/s), ratio %.2f; %d candidates, "
                    + "%d volumes, %d proven; heap %d MiB in use", args[1], cat, bytes / cat / 1e9, own, bytes / own / 1e9, cat / own,
                    result.candidates().size(), result.volumes().size(), result.proven().size(), used));
        }
    }

    private static double cat(Path file) throws IOException, InterruptedException {
        long start = System.nanoTime();
        Process cat = new ProcessBuilder("cat", file.toString()).redirectOutput(ProcessBuilder.Redirect.DISCARD).start();
        if (!cat.waitFor(10, TimeUnit.MINUTES) || cat.exitValue() != 0) {
            throw new IOException("cat failed");
        }
        return (System.nanoTime() - start) / 1e9;
    }

    private static void make(Path file, String content, long mib) throws IOException {
        Random random = new Random(7);
        byte[] block = new byte[MIB];
        try (OutputStream out = Files.newOutputStream(file)) {
            if (content.equals("compressed")) {
                compressed(out, random, mib);
                return;
            }
            for (long i = 0; i < mib; i++) {
                if (content.equals("random")) {
                    random.nextBytes(block);
                } else if (content.equals("records")) {
                    records(block, i * (MIB / RECORD));
                }
                out.write(block);
            }
        }
    }

    /** One compressed stream after the other, of text that gives way to new text. */
    private static void compressed(OutputStream out, Random random, long mib) throws IOException {
        byte[] text = new byte[4 * MIB];
        long[] written = {0};
        while (written[0] < mib * MIB) {
            for (int i = 0; i < text.length; i++) {
                text[i] = (byte) ('a' + (random.nextInt() & random.nextInt() & 15));
            }
            try (GZIPOutputStream zip = new GZIPOutputStream(new OutputStream() {
                @Override
                public void write(int b) throws IOException {
                    out.write(b);
                    written[0]++;
                }

                @Override
                public void write(byte[] bytes, int from, int count) throws IOException {
                    out.write(bytes, from, count);
                    written[0] += count;
                }
            })) {
                zip.write(text);
            }
        }
    }

    /** File records in use without attributes: signature, update sequence, sizes, number (Linux kernel fs/ntfs3/ntfs.h, MFT_REC). */
    private static void records(byte[] block, long number) {
        java.util.Arrays.fill(block, (byte) 0);
        for (int at = 0; at < block.length; at += RECORD) {
            put(block, at, 0x454C4946, 4);
            put(block, at + 4, 0x30, 2);
            put(block, at + 6, 3, 2);
            put(block, at + 0x14, 0x38, 2);
            put(block, at + 0x16, 1, 2);
            put(block, at + 0x18, 0x40, 4);
            put(block, at + 0x1C, RECORD, 4);
            put(block, at + 0x2C, number++, 4);
            put(block, at + 0x30, 5, 2);
            put(block, at + 0x38, 0xFFFFFFFFL, 4);
            put(block, at + 510, 5, 2);
            put(block, at + 1022, 5, 2);
        }
    }

    private static void put(byte[] block, int at, long value, int width) {
        for (int i = 0; i < width; i++) {
            block[at + i] = (byte) (value >>> 8 * i);
        }
    }
}
