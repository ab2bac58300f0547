package sectorglass.image;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;

/** Finds patterns that may mark unread sectors, by looking at sectors spread over an image. */
public final class FillerFinder {
    /** Sectors looked at unless said otherwise. */
    public static final int SAMPLES = 4096;
    /** Sectors with one shape from which it is offered: fewer are chance. */
    private static final int FEWEST = 8;
    /** Shapes kept: the content of a disk must not fill the memory. */
    private static final int MOST_SHAPES = 65_536;
    private static final long SEED = 0x5EC7_0261_A55L;

    private FillerFinder() {
    }

    private static final class Seen {
        private int count;
        private long example;
    }

    /** Looks at the given number of sectors, or at all where there are not more. */
    public static List<Filler> find(SectorImage image, int samples, Locale locale, Progress progress) {
        Map<SectorShape, Seen> seen = new LinkedHashMap<>();
        SplittableRandom random = new SplittableRandom(SEED);
        int size = image.sectorSize();
        byte[] bytes = new byte[size];
        int looked = 0;
        int wanted = (int) Math.min(samples, image.sectors());
        for (int i = 0; i < wanted; i++) {
            progress.checkCancelled();
            progress.at(image.name(), i, wanted);
            long from = part(image.sectors(), i, wanted);
            long to = part(image.sectors(), i + 1, wanted);
            long lba = from + (to - from > 1 ? random.nextLong(to - from) : 0);
            if (image.read(lba * size, bytes, 0, size).allRead()) {
                looked++;
                note(SectorShape.of(bytes, 0, size, lba), lba, seen);
            }
        }
        return offered(seen, looked, new Texts(locale));
    }

    /** The first of a share of sectors, without overflow. */
    private static long part(long sectors, int index, int parts) {
        return sectors / parts * index + sectors % parts * index / parts;
    }

    private static void note(SectorShape shape, long lba, Map<SectorShape, Seen> seen) {
        if (shape.kind() != null && (seen.size() < MOST_SHAPES || seen.containsKey(shape))) {
            Seen entry = seen.computeIfAbsent(shape, s -> new Seen());
            entry.example = entry.count == 0 ? lba : entry.example;
            entry.count++;
        }
    }

    private static List<Filler> offered(Map<SectorShape, Seen> seen, int looked, Texts texts) {
        List<Filler> fillers = new ArrayList<>();
        seen.forEach((shape, entry) -> {
            if (entry.count >= FEWEST) {
                fillers.add(new Filler(shape.kind(), Filler.words(shape, texts), entry.count, looked, entry.example, shape));
            }
        });
        fillers.sort(Comparator.comparingInt(Filler::count).reversed());
        return fillers;
    }
}
