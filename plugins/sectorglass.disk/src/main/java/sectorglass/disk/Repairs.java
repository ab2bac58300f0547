package sectorglass.disk;

import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;

/** A capability of a {@link Volume}: corrections of its own structures. */
public interface Repairs {

    /** What can be re-made of this volume's head: boot sectors, their copies, summaries. Reads little. */
    List<Repair> propose(Locale locale);

    /**
     * Checksums and copies that depend on bytes a person changed, so that they hold again.
     *
     * @param changed image bytes that were changed
     * @param image the image with the change over it
     * @return changes, each with its reason; empty where nothing depends on the bytes
     */
    default List<Repair.Change> dependents(ByteRange changed, SectorImage image, Locale locale) {
        return List.of();
    }

    /** LBA where the volume says it begins, in sectors of the image; empty where it says nothing. */
    default OptionalLong statedFirst() {
        return OptionalLong.empty();
    }

    /**
     * The volume's head for another sector size, its data staying in place.
     *
     * @param sectorSize bytes per sector wanted
     * @return a repair, or the reason why not
     */
    default Translation translate(int sectorSize, Locale locale) {
        return Translation.refused("");
    }
}
