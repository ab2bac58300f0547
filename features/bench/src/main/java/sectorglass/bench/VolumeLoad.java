package sectorglass.bench;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

import sectorglass.disk.Disk;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.disk.Volume;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.make.BigVolume;
import sectorglass.make.DiskMaker;
import sectorglass.make.VolumeKind;
import sectorglass.verify.Checks;

/**
 * Checks a volume of very many files whole, several times, and builds its tree, in a process of its own. Arguments: the image, which is
 * made first where it does not exist; kind of volume; number of files; times.
 */
public final class VolumeLoad {

    private VolumeLoad() {
    }

    /** @param args image, kind, files, times */
    public static void main(String[] args) throws IOException, ImageException {
        Path file = Path.of(args[0]);
        int files = Integer.parseInt(args[2]);
        if (java.nio.file.Files.notExists(file)) {
            DiskMaker.withoutPlaces().make(BigVolume.describe(VolumeKind.valueOf(args[1]), files), file);
        }
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT)) {
            for (int i = 0; i < Integer.parseInt(args[3]); i++) {
                check(image, files);
            }
            tree(image, files);
        }
    }

    /** Notes when the work goes over to another stage. */
    private static final class Stages implements Progress {
        private final Map<String, long[]> spent = new LinkedHashMap<>();
        private String stage = "begin";
        private long total;
        private long wall = System.nanoTime();
        private long busy = busy();

        @Override
        public boolean cancelled() {
            return false;
        }

        @Override
        public void at(String what, long done, long of) {
            if (!what.equals(stage)) {
                end();
                stage = what;
            }
            total = of;
        }

        void end() {
            long[] sum = spent.computeIfAbsent(stage, s -> new long[3]);
            sum[0] += System.nanoTime() - wall;
            sum[1] += busy() - busy;
            sum[2] = Math.max(sum[2], total);
            wall = System.nanoTime();
            busy = busy();
        }
    }

    private static void check(OpenImage image, int files) {
        Disk disk = Survey.of(image, Progress.NONE);
        Volume volume = disk.volume(1).orElseThrow();
        Stages stages = new Stages();
        long wall = System.nanoTime();
        long busy = busy();
        Checks checks = new Checks();
        volume.check(Level.FULL, checks, stages);
        stages.end();
        say("full check of %,d files: %.2f s, of which the thread was busy %.2f s; %d verdicts", files, (System.nanoTime() - wall) / 1e9,
                (busy() - busy) / 1e9, checks.size());
        stages.spent.forEach((stage, sum) -> say("  %s: %.3f s, busy %.3f s%s", stage, sum[0] / 1e9, sum[1] / 1e9,
                stage.equals("file records") ? String.format(Locale.ROOT, " = %,.0f records/s, busy %,.0f", sum[2] / (sum[0] / 1e9),
                        sum[2] / (sum[1] / 1e9)) : ""));
    }

    private static void tree(OpenImage image, int files) {
        Volume volume = Survey.of(image, Progress.NONE).volume(1).orElseThrow();
        long before = heap();
        long wall = System.nanoTime();
        FileTree tree = volume.capability(Files.class).orElseThrow().tree(Progress.NONE);
        double seconds = (System.nanoTime() - wall) / 1e9;
        long after = heap();
        say("tree of %,d entries built in %.2f s; %,d MB of heap, %d bytes per entry", tree.size(), seconds, (after - before) >> 20,
                (after - before) / tree.size());
        if (tree.size() < files) {
            throw new IllegalStateException("entries are missing");
        }
    }

    private static long heap() {
        System.gc();
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        return runtime.totalMemory() - runtime.freeMemory();
    }

    private static long busy() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static void say(String text, Object... values) {
        System.out.println(String.format(Locale.ROOT, text, values));
    }
}
