package sectorglass.image;

import java.nio.file.Path;
import java.util.List;

/** Compares a read map with the size of its image. */
final class MapFit {
    /** A map that names this many times the sectors of its image is looked at for a wrong unit. */
    private static final int SUSPICIOUS = 256;

    private MapFit() {
    }

    /** @throws ImageException where the map counts bytes, so that every state would be set in the wrong place */
    static void check(Path file, ReadMapFile.Loaded loaded, long sectors, Texts texts, List<String> remarks) throws ImageException {
        long end = loaded.map().end();
        if (end <= sectors) {
            if (end < sectors) {
                remarks.add(texts.of("map.short", file, end, sectors, sectors - end));
            }
            return;
        }
        if (end / SUSPICIOUS >= sectors) {
            if (loaded.allMultiples()) {
                throw texts.refusal("map.bytes", file, end, sectors);
            }
            remarks.add(texts.of("map.much-longer", file, end, sectors));
            return;
        }
        remarks.add(texts.of("map.longer", file, end, sectors, end - sectors));
    }
}
