package sectorglass.disk;

import java.util.List;

/**
 * Everything known of one entry of a {@link FileTree}. Made when asked for.
 *
 * @param id number in the tree
 * @param parent id of its folder, -1 for the root
 * @param number the file system's own number of it: record, inode, catalogue node; -1 where it has none
 * @param name as it stands; show it through {@link sectorglass.image.SafeText}
 * @param path relative to the root, safe to show
 * @param folder whether it is a folder
 * @param deleted whether it was deleted
 * @param bytes length of the main stream, -1 where not known
 * @param times its times
 * @param attributes in words: "read-only", "hidden", "compressed"
 * @param links number of names it has
 * @param streams its streams, the main one first with an empty name; empty for folders without streams
 * @param special a state that its content has whatever was read: {@link FileState#ELSEWHERE}, {@link FileState#ENCRYPTED}, or null
 * @param remarks sentences: where a link leads, why its content is doubtful, what could not be read
 */
public record FileEntry(int id, int parent, long number, String name, String path, boolean folder, boolean deleted, long bytes,
        FileTimes times, List<String> attributes, int links, List<Stream> streams, FileState special, List<String> remarks) {

    /**
     * A stream of a file.
     *
     * @param name empty for the main stream
     * @param bytes length, -1 where not known
     * @param storage in words: "resident", "plain", "sparse", "compressed", "encrypted"
     */
    public record Stream(String name, long bytes, String storage) { }
}
