package sectorglass.recovery.opening;

import java.util.List;
import java.util.function.Predicate;

/**
 * A type of content.
 *
 * @param id stable, lower case: {@code jpeg}
 * @param name as its standard or its users name it: {@code JPEG}
 * @param endings of names that usually hold it, lower case; several types may share one
 * @param recognises whether the first bytes of a file are of this type; the array has at most {@link #HEAD} bytes, fewer in short files
 */
public record FileType(String id, String name, List<String> endings, Predicate<byte[]> recognises) {
    /** Bytes at the beginning of a file that a type is recognised by. */
    public static final int HEAD = 4096;

    /** A type recognised by bytes at a place, given as ISO 8859-1 text. */
    public static FileType of(String id, String name, String endings, int at, String bytes) {
        return new FileType(id, name, List.of(endings.split(" ")), head -> has(head, at, bytes));
    }

    /** Whether bytes, given as ISO 8859-1 text, stand at a place. */
    public static boolean has(byte[] head, int at, String bytes) {
        if (at < 0 || head.length - at < bytes.length()) {
            return false;
        }
        for (int i = 0; i < bytes.length(); i++) {
            if ((head[at + i] & 0xFF) != bytes.charAt(i)) {
                return false;
            }
        }
        return true;
    }

    @Override
    public String toString() {
        return id;
    }
}
