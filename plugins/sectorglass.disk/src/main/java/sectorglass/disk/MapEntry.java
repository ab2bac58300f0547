package sectorglass.disk;

import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;

/**
 * A used slot of a map.
 *
 * @param slot the map's own number of it, from 1 (EBR chains: 5, 6, … in chain order)
 * @param range absolute sectors it names; may reach beyond the image
 * @param type type code or GUID, hex lower case without prefix
 * @param typeName in words, or null where not assigned
 * @param name the entry's own name, or null
 * @param uuid its identity, lower case, or null
 * @param active whether its active flag is set
 * @param use whether it is listed as a partition
 * @param where image bytes of the slot itself
 * @param roles what its type says of its use
 */
public record MapEntry(int slot, SectorRange range, String type, String typeName, String name, String uuid, boolean active, Use use,
        ByteRange where, List<Role> roles) {

    /** What an entry is to the listing. */
    public enum Use {
        /** A partition. */
        PARTITION,
        /** An extended container. */
        CONTAINER,
        /** A protective entry that only keeps others away. */
        PROTECTIVE,
        /** The slot that stands for the whole disk or slice. */
        WHOLE,
        /** Names a range that another entry of the same disk names, too (hybrid maps). */
        REPEAT,
        /** A volume of a set that stands in several places: its sectors are counted in the volume, not on the image. */
        ASSEMBLED
    }
}
