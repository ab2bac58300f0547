package sectorglass.image;

import java.util.List;

/**
 * Says in which form a disk was dumped, from structures that landmarks alone do not tell: a volume that says it begins at sector n of its
 * disk. A provider. What it says is offered and not taken without asking, except for a {@link #proven} trailer.
 */
public interface DumpFormClue {
    /** Weight from which a clue is a proof. */
    int PROOF = 80;

    /** Whether a clue proves a trailer and nothing else: it takes no sector from the disk, so it is taken without asking. */
    static boolean proven(DumpForm.Clue clue) {
        return clue.weight() >= PROOF && clue.form().trailer() > 0 && clue.form().withTrailer(0).plain();
    }

    /** The clues found in the stored bytes, which are shown as if the form were plain; an empty list where nothing speaks. */
    List<DumpForm.Clue> look(SectorImage stored);
}
