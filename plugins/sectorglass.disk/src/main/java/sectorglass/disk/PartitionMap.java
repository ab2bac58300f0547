package sectorglass.disk;

import java.util.List;

import sectorglass.image.ByteRange;

/**
 * A partition map as found.
 *
 * @param kind mbr, ebr, gpt, apm, bsd, sun, sgi or ldm
 * @param lba LBA of its header
 * @param id disk signature or GUID, lower case hex, or null
 * @param copy which copy it is
 * @param leftover whether it belongs to a former state of the disk
 * @param remark in words why it is called leftover, hybrid and so on, or null
 * @param entries its used slots in slot order
 * @param where the image bytes it occupies: header, arrays
 * @param structures what it consists of
 */
public record PartitionMap(String kind, long lba, String id, Copy copy, boolean leftover, String remark, List<MapEntry> entries,
        List<ByteRange> where, List<Structure> structures) {

    /** Which of two copies. */
    public enum Copy {
        PRIMARY, BACKUP;

        /** Lower case English, as in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }
}
