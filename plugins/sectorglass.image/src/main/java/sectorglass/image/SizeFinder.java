package sectorglass.image;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

import sectorglass.image.SectorSizeClue.Clue;

/** Weighs the clues to the sector size. */
final class SizeFinder {
    private static final int DEFAULT = 512;
    private static final int MAP_FITS = 20;

    private SizeFinder() {
    }

    static SectorSizeChoice byHand(int size, SectorImage image, Texts texts) {
        List<Clue> against = clues(image).stream().filter(clue -> clue.sectorSize() != size).toList();
        return new SectorSizeChoice(size, texts.of("size.by-hand"), List.of(), against);
    }

    /** The size for which the clues together weigh most; the smallest of equals. */
    static SectorSizeChoice find(SectorImage image, ReadMap map, Texts texts) {
        List<Clue> clues = new ArrayList<>(clues(image));
        if (map != null) {
            fits(map, image.bytes()).forEach(size -> clues.add(new Clue(size, MAP_FITS, texts.of("size.map", map.end(), size))));
        }
        Map<Integer, Integer> weights = new TreeMap<>();
        clues.forEach(clue -> weights.merge(clue.sectorSize(), clue.weight(), Integer::sum));
        if (weights.isEmpty()) {
            return new SectorSizeChoice(DEFAULT, texts.of("size.default"), List.of(), List.of());
        }
        int most = weights.values().stream().mapToInt(Integer::intValue).max().orElseThrow();
        int size = weights.entrySet().stream().filter(e -> e.getValue() == most).findFirst().orElseThrow().getKey();
        List<Clue> own = clues.stream().filter(clue -> clue.sectorSize() == size)
                .sorted((a, b) -> Integer.compare(b.weight(), a.weight())).toList();
        List<Clue> against = clues.stream().filter(clue -> clue.sectorSize() != size).toList();
        return new SectorSizeChoice(size, own.get(0).reason(), own, against);
    }

    /** The sizes at which the map ends where the image does; none where it fits several. */
    static List<Integer> fits(ReadMap map, long bytes) {
        return List.of(512, 1024, 2048, 4096).stream()
                .filter(size -> map.end() <= Long.MAX_VALUE / size && map.end() * size == bytes).toList();
    }

    private static List<Clue> clues(SectorImage image) {
        List<Clue> found = new ArrayList<>();
        for (SectorSizeClue provider : Providers.all(SectorSizeClue.class)) {
            try {
                found.addAll(provider.look(image));
            } catch (UnreadException e) {
                continue; // what it needs was not read: it says nothing
            }
        }
        return found;
    }
}
