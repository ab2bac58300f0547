package sectorglass.bench;

import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.SplittableRandom;

import sectorglass.image.ImageException;
import sectorglass.image.Progress;
import sectorglass.image.TextLog;

/**
 * Writes a text log as an imaging run would (blank-separated, hexadecimal bytes, a line per transfer, failed places now and then, some tried again at the
 * end) where there is none, and loads it. Arguments: file, gigabytes.
 */
public final class TextLogLoad {
    private static final int SEED = 21;
    private static final int TRANSFER = 128 * 512;

    private TextLogLoad() {
    }

    /** Writes and measures. */
    public static void main(String[] args) throws IOException, ImageException {
        Path file = Path.of(args[0]);
        if (!Files.exists(file)) {
            write(file, (long) (Double.parseDouble(args[1]) * 1e9));
        }
        TextLog form = TextLog.DEFAULT.withDelimiter(" ").withSkipped(1, "#").withColumns(2, 3, TextLog.Size.LENGTH, 4).withNumbers(16, TextLog.Unit.BYTES)
                .withWords(java.util.Map.of("good", sectorglass.image.ReadState.READ, "bad", sectorglass.image.ReadState.FAILED), null);
        long begin = System.nanoTime();
        TextLog.Loaded loaded = form.load(file, 512, Locale.ENGLISH, Progress.NONE);
        double seconds = (System.nanoTime() - begin) / 1e9;
        System.out.printf(Locale.ROOT, "%,d bytes, %,d lines, %,d ranges: %.1f s, heap %,d MB at most%n", Files.size(file), loaded.lines(), loaded.map().runs(), seconds,
                Runtime.getRuntime().maxMemory() >> 20);
    }

    private static void write(Path file, long bytes) throws IOException {
        SplittableRandom random = new SplittableRandom(SEED);
        try (PrintStream out = new PrintStream(new java.io.BufferedOutputStream(Files.newOutputStream(file), 1 << 20), false, StandardCharsets.US_ASCII)) {
            out.println("time offset length state");
            long written = 0;
            StringBuilder line = new StringBuilder();
            long again = -1;
            for (long i = 0; written < bytes; i++) {
                long at = i * TRANSFER;
                boolean bad = random.nextInt(300) == 0;
                line.setLength(0);
                line.append(1_700_000_000L + i / 800).append(" 0x").append(Long.toHexString(at)).append(" 0x").append(Integer.toHexString(TRANSFER)).append(bad ? " bad\n" : " good\n");
                if (again >= 0 && random.nextInt(50) == 0) {
                    line.append(1_700_000_000L + i / 800).append(" 0x").append(Long.toHexString(again)).append(" 0x200 good\n");
                }
                again = bad ? at + 512L * random.nextInt(128) : again;
                out.append(line);
                written += line.length();
            }
            if (out.checkError()) {
                throw new UncheckedIOException(new IOException("cannot write " + file));
            }
        }
    }
}
