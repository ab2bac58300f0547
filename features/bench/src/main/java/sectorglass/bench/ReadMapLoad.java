package sectorglass.bench;

import java.io.BufferedWriter;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.SplittableRandom;

import sectorglass.image.ImageException;
import sectorglass.image.ReadMap;
import sectorglass.image.ReadState;

/**
 * Loads a read map of many ranges in a process of its own, whose heap the caller bounds, and looks states up at random places. Arguments:
 * a file, which is written first where it does not exist, and the number of ranges.
 */
public final class ReadMapLoad {
    private static final int LOOKUPS = 20_000_000;

    private ReadMapLoad() {
    }

    /** @param args file, number of ranges */
    public static void main(String[] args) throws IOException, ImageException {
        Path file = Path.of(args[0]);
        int ranges = Integer.parseInt(args[1]);
        if (Files.notExists(file)) {
            write(file, ranges);
        }
        long begin = System.nanoTime();
        long busy = busy();
        ReadMap map = ReadMap.load(file);
        say("%,d ranges in %,d bytes of text loaded in %.2f s, of which the thread was busy %.2f s", map.runs(), Files.size(file),
                (System.nanoTime() - begin) / 1e9, (busy() - busy) / 1e9);
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        say("heap in use afterwards %,d MB, limit %,d MB", (runtime.totalMemory() - runtime.freeMemory()) >> 20, runtime.maxMemory() >> 20);
        lookUp(map);
        lookUp(map);
    }

    /** Processor time of this thread: what remains of the wall clock on a machine that others use, too. */
    private static long busy() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static void write(Path file, int ranges) throws IOException {
        SplittableRandom random = new SplittableRandom(20);
        ReadState[] states = ReadState.values();
        long at = 0;
        try (BufferedWriter out = Files.newBufferedWriter(file)) {
            out.write("first_lba,sectors,state\n");
            for (int i = 0; i < ranges; i++) {
                int count = 1 + random.nextInt(3900);
                out.write(at + "," + count + "," + states[i % 2 == 0 ? 0 : 1 + random.nextInt(3)].word() + "\n");
                at += count;
            }
        }
    }

    private static void lookUp(ReadMap map) {
        SplittableRandom random = new SplittableRandom(7);
        int read = 0;
        long begin = System.nanoTime();
        long busy = busy();
        for (int i = 0; i < LOOKUPS; i++) {
            read += map.state(random.nextLong(map.end())) == ReadState.READ ? 1 : 0;
        }
        say("random look-up %.3f µs on average over %,d, of which the thread was busy %.3f µs (%.1f %% of the places were read)",
                (System.nanoTime() - begin) / 1e3 / LOOKUPS, LOOKUPS, (busy() - busy) / 1e3 / LOOKUPS, 100.0 * read / LOOKUPS);
    }

    private static void say(String text, Object... values) {
        System.out.println(String.format(Locale.ROOT, text, values));
    }
}
