package sectorglass.practice.disk;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * The teacher's key to one or more disks, as a JSON file: {@code docs/files.md}.
 *
 * @param disks in the order of their seats
 */
public record AnswerKey(List<DiskKey> disks) {
    private static final String KIND = "practice key";
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

    /** The key to the disk of a code. */
    public Optional<DiskKey> disk(String code) {
        return disks.stream().filter(d -> d.code().equals(code)).findFirst();
    }

    /** Writes the file; an older one of that name is replaced. */
    public void write(Path file) throws IOException {
        PracticeJson.write(file, PracticeJson.ordered("sectorglass", KIND, "version", PracticeJson.VERSION, "disks", disks.stream().map(AnswerKey::map).toList()));
    }

    private static Map<String, Object> map(DiskKey d) {
        return PracticeJson.ordered("disk", d.code(), "seed", d.seed(), "level", d.level(), "seat", d.seat(), "image", d.image(), "sectorSize", d.sectorSize(),
                "sectors", d.sectors(), "sha256", d.sha256(), "faults", d.faults().stream().map(f -> map(f, d.sectorSize())).toList(),
                "also", d.also().stream().map(a -> PracticeJson.ordered("check", a.check(), "firstByte", a.firstByte(), "length", a.length())).toList(),
                "choices", d.choices());
    }

    private static Map<String, Object> map(KeyFault f, int sectorSize) {
        return PracticeJson.ordered("kind", f.kind(), "check", f.check(), "words", f.words(),
                "places", f.places().stream().map(p -> PracticeJson.ordered("lba", p.firstByte() / sectorSize, "byte", p.firstByte() % sectorSize,
                        "right", HEX.formatHex(p.right()), "wrong", HEX.formatHex(p.wrong()), "aroundByte", p.aroundByte(),
                        "around", HEX.formatHex(p.around()))).toList(),
                "seen", PracticeJson.ordered("lba", f.seenByte() / sectorSize, "byte", f.seenByte() % sectorSize), "volume", f.volume(),
                "what", f.what(), "means", f.means(), "advice", f.advice(), "source", f.source());
    }

    /**
     * Reads a key.
     *
     * @throws PracticeException if it is none, in words
     */
    public static AnswerKey read(Path file) throws IOException {
        List<DiskKey> disks = new ArrayList<>();
        try {
            for (JsonNode d : PracticeJson.read(file, KIND).path("disks")) {
                disks.add(disk(d));
            }
        } catch (IllegalArgumentException | ArithmeticException e) {
            throw new PracticeException(file + " is damaged: " + e.getMessage() + ".");
        }
        return new AnswerKey(List.copyOf(disks));
    }

    private static DiskKey disk(JsonNode d) {
        int size = d.path("sectorSize").asInt();
        if (size < 1) {
            throw new IllegalArgumentException("sectorSize " + size);
        }
        List<KeyFault> faults = new ArrayList<>();
        for (JsonNode f : d.path("faults")) {
            List<Place> places = new ArrayList<>();
            for (JsonNode p : f.path("places")) {
                places.add(new Place(at(p, size), HEX.parseHex(p.path("right").asText()), HEX.parseHex(p.path("wrong").asText()),
                        p.path("aroundByte").asLong(), HEX.parseHex(p.path("around").asText())));
            }
            if (places.isEmpty()) {
                throw new IllegalArgumentException("a fault has no place");
            }
            faults.add(new KeyFault(f.path("kind").asText(), f.path("check").asText(), f.path("words").asText(), List.copyOf(places), at(f.path("seen"), size),
                    f.path("volume").isInt() ? f.path("volume").asInt() : null, f.path("what").asText(), f.path("means").asText(), f.path("advice").asText(),
                    f.path("source").asText()));
        }
        List<DiskKey.Consequence> also = new ArrayList<>();
        d.path("also").forEach(a -> also.add(new DiskKey.Consequence(a.path("check").asText(), a.path("firstByte").asLong(), a.path("length").asLong())));
        Map<String, String> choices = new TreeMap<>();
        d.path("choices").fields().forEachRemaining(c -> choices.put(c.getKey(), c.getValue().asText()));
        return new DiskKey(d.path("disk").asText(), d.path("seed").asLong(), d.path("level").asInt(), d.path("seat").asInt(), d.path("image").asText(), size,
                d.path("sectors").asLong(), d.path("sha256").asText(), List.copyOf(faults), List.copyOf(also), choices);
    }

    private static long at(JsonNode place, int sectorSize) {
        return Math.addExact(Math.multiplyExact(place.path("lba").asLong(), sectorSize), place.path("byte").asLong());
    }
}
