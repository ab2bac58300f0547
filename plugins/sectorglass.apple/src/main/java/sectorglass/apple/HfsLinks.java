package sectorglass.apple;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.image.Window;

/**
 * Hard links: a file of type "hlnk" and creator "hfs+" names an inode, whose content is that of the file "iNode" and its number in a
 * folder that is not shown. Source: Apple TN1150, "Hard Links", by way of hfs_format.h (xnu); links to folders from memory of it.
 */
final class HfsLinks {
    private static final String PRIVATE = "\0\0\0\0HFS+ Private Data";
    private static final String PRIVATE_FOLDERS = ".HFS+ Private Directory Data\r";
    private static final String INODE = "iNode";
    /** Flag of a record that is one of several links. */
    private static final int LINK_CHAIN = 0x20;

    /**
     * A link.
     *
     * @param parent folder that holds it
     * @param id its own catalog id
     * @param inode number of what it leads to
     * @param modified milliseconds since 1970
     * @param key node and place of its record
     */
    record Link(String name, long parent, long id, long inode, long modified, long key) { }

    /** What links lead to: catalog id, length and place of the record. */
    record Inode(long id, long bytes, long key) { }

    private record Candidate(long parent, long number, Inode inode) { }

    private final List<Link> links = new ArrayList<>();
    private final List<Candidate> candidates = new ArrayList<>();
    private final Map<Long, Inode> inodes = new HashMap<>();
    private long folder = -1;

    /** Whether a file record is a link to a file. */
    static boolean isLink(Window w, int data) {
        return w.length() >= data + HfsCensus.FILE_BYTES && w.u16be(data) == HfsCensus.FILE && w.matches(data + 48, "hlnkhfs+");
    }

    /** Whether a file record is a link to a folder. */
    static boolean isFolderLink(Window w) {
        return w.matches(48, "fdrpMACS") && (w.u16be(2) & LINK_CHAIN) != 0;
    }

    /** Whether the file system keeps an entry of the root folder for itself. */
    static boolean ownName(String name) {
        return name.equals(PRIVATE) || name.equals(PRIVATE_FOLDERS) || name.equals(".journal") || name.equals(".journal_info_block");
    }

    void add(Link link) {
        links.add(link);
    }

    /** Looks at an entry that is no link. */
    void see(String name, long parent, long id, boolean isFolder, long bytes, long key) {
        if (isFolder && parent == 2 && name.equals(PRIVATE)) {
            folder = id;
        } else if (!isFolder && name.length() > INODE.length() && name.length() < 16 && name.startsWith(INODE)
                && name.chars().skip(INODE.length()).allMatch(c -> c >= '0' && c <= '9')) {
            candidates.add(new Candidate(parent, Long.parseLong(name.substring(INODE.length())), new Inode(id, bytes, key)));
        }
    }

    /** Everything was seen. */
    void finish() {
        for (Candidate candidate : candidates) {
            if (candidate.parent() == folder) {
                inodes.putIfAbsent(candidate.number(), candidate.inode());
            }
        }
        candidates.clear();
    }

    /** Links in the order they were seen. */
    List<Link> waiting() {
        return links;
    }

    /** What a number leads to, or null where it was not read. */
    Inode target(long number) {
        return inodes.get(number);
    }
}
