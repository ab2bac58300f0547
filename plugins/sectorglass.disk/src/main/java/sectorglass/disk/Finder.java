package sectorglass.disk;

import java.util.List;
import java.util.Optional;

import sectorglass.image.SectorImage;

/**
 * Recognises structures of one family wherever they stand, for a search that knows nothing of the disk; a provider. The search looks for
 * the {@link #signatures} itself and asks {@link #look} only where their bytes stand. Kinds for which no finder is provided are found by
 * the signatures of their {@link VolumeProvider}. Safe for use by several threads.
 */
public interface Finder {

    /** The kinds of volumes and maps it finds: those of its {@link VolumeProvider}, or {@code gpt}, {@code mbr}, {@code ebr}. */
    List<String> kinds();

    /** Bytes to look for at every structure that starts at a multiple of 512 bytes; each 2 to 16 bytes long. */
    List<Signature> signatures();

    /**
     * Whether structures of this signature stand in long rows, like the records of a file table: a row is looked at in samples and
     * becomes one sighting.
     */
    default boolean inRows(Signature signature) {
        return false;
    }

    /**
     * Decodes and checks what stands at a place whose bytes match. Reads little. Never throws because of the bytes; what was not read
     * decides nothing.
     *
     * @param firstByte image byte where the structure would start
     * @return empty where the bytes only look like it
     */
    Optional<Sighting> look(SectorImage image, long firstByte, Signature signature);

    /**
     * What several sightings tell together that none tells alone: two equal file allocation tables, a file table and its mirror.
     *
     * @param own all sightings of this finder, by address
     * @return further sightings, never those given
     */
    default List<Sighting> relate(SectorImage image, List<Sighting> own) {
        return List.of();
    }
}
