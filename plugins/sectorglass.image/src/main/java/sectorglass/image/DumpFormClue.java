package sectorglass.image;

import java.util.List;

/**
 * Says in which form a disk was dumped, from structures that landmarks alone do not tell: a volume that says it begins at sector n of its
 * disk. A provider. What it says is offered, never taken without asking.
 */
public interface DumpFormClue {

    /** The clues found in the stored bytes, which are shown as if the form were plain; an empty list where nothing speaks. */
    List<DumpForm.Clue> look(SectorImage stored);
}
