package sectorglass.workbench.model;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.Format;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.SpecException;
import sectorglass.disk.Disk;
import sectorglass.disk.Structure;
import sectorglass.image.Window;

/** Decodes the structures of one disk when they are asked for and keeps the last ones. Safe for several threads; does not return at once. */
public final class Decodings {
    private static final int KEPT = 256;

    private final Disk disk;
    private final FormatCatalogue catalogue;
    private final Map<Key, Explained> kept = new LinkedHashMap<>(64, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Key, Explained> eldest) {
            return size() > KEPT;
        }
    };

    private final List<Structure> byHand = new CopyOnWriteArrayList<>();

    private record Key(long start, long length, String format, Map<String, Object> params) { }

    /** The structures of this disk, explained by the formats of this catalogue. */
    public Decodings(Disk disk, FormatCatalogue catalogue) {
        this.disk = disk;
        this.catalogue = catalogue;
    }

    /** The structure that a person put over the image byte, else the innermost one that holds it, decoded. */
    public Optional<Explained> at(long imageByte) {
        return byHandAt(imageByte).or(() -> disk.structureAt(imageByte)).map(this::of);
    }

    /** The smallest structure that a person put over the image byte. */
    public Optional<Structure> byHandAt(long imageByte) {
        return byHand.stream().filter(structure -> structure.range().contains(imageByte))
                .min(Comparator.comparingLong(structure -> structure.range().length()));
    }

    /** All structures that a person put over bytes. */
    public List<Structure> byHand() {
        return byHand;
    }

    /** Puts a structure over its bytes; one that begins at the same byte gives way. */
    void apply(Structure structure) {
        withdraw(structure.range().start());
        byHand.add(structure);
    }

    /** Takes the structure away that was put over bytes from this one on. */
    void withdraw(long start) {
        byHand.removeIf(structure -> structure.range().start() == start);
    }

    /** A structure, decoded. */
    public Explained of(Structure structure) {
        Key key = new Key(structure.range().start(), structure.range().length(), structure.format(), structure.params());
        synchronized (kept) {
            Explained known = kept.get(key);
            if (known != null) {
                return known;
            }
        }
        Explained made = decode(structure);
        synchronized (kept) {
            kept.put(key, made);
        }
        return made;
    }

    private Explained decode(Structure structure) {
        Window window = structure.reader().read(disk.image());
        try {
            if (catalogue.find(structure.format()).isEmpty()) {
                return new Explained(structure, window, null, "no format \"" + structure.format() + "\"");
            }
            Format format = catalogue.load(structure.format());
            return new Explained(structure, window, Decoder.decode(format, window, DecodeOptions.DEFAULT.withParams(structure.params())), null);
        } catch (SpecException e) {
            return new Explained(structure, window, null, e.getMessage());
        }
    }
}
