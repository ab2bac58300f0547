package sectorglass.disk.copy;

import sectorglass.image.Progress;

/**
 * Copies the structures of a volume: a capability of a {@link sectorglass.disk.Volume}. Names, labels, resident content and slack are replaced or zero;
 * checksums over them are made so that those which held before hold after, and those which did not still do not. Content of files is never put.
 */
public interface StructureCopy {

    /**
     * Names that occur, so that the disguise can keep their order; called before {@link #copy}.
     *
     * @param disguise learns them
     */
    void learn(Disguise disguise, Progress progress);

    /** Puts the structures. Never throws because of the bytes; structures that cannot be understood are left out as far as they may hold content. */
    void copy(CopyTarget to, Disguise disguise, Progress progress);
}
