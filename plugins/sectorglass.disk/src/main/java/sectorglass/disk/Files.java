package sectorglass.disk;

import sectorglass.image.Progress;

/** The files of a volume: a capability, see {@link Volume#capability}. */
public interface Files {

    /**
     * The tree of all files, deleted ones included. Read once and kept; the first call may take long.
     *
     * @throws Progress.Stopped if the person stopped it; the next call begins again
     */
    FileTree tree(Progress progress);

    /**
     * The content of a file of {@link #tree}.
     *
     * @param entry id in the tree
     * @param stream empty for the main stream
     * @return null where the entry has no such stream: folders, most of the time
     */
    Content content(int entry, String stream);

    /**
     * Whether an entry of {@link #tree} is a structure that the file system keeps for itself under a name, such as the file table or a journal;
     * nobody counts those among a person's files. Folders that only hold such entries are meant, too.
     */
    default boolean structure(int entry) {
        return false;
    }
}
