package sectorglass.disk;

import java.util.Map;

import sectorglass.image.ByteRange;

/**
 * A structure at a place, and the format that explains it.
 *
 * @param name for people: "backup boot sector", "file record 5"
 * @param format id of the format
 * @param range image bytes from the first to the last
 * @param params parameters for the format
 * @param reader reads it
 */
public record Structure(String name, String format, ByteRange range, Map<String, Object> params, StructureReader reader) {

    /** A structure that is read as it stands. */
    public static Structure plain(String name, String format, long firstByte, int length, Map<String, Object> params) {
        return new Structure(name, format, new ByteRange(firstByte, length), params, image -> image.window(firstByte, length));
    }
}
