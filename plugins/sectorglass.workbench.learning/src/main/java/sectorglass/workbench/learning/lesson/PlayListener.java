package sectorglass.workbench.learning.lesson;

import java.util.List;

import sectorglass.practice.lesson.TextPart;

/** Shows what a play of a lesson does; called on the window's thread. */
interface PlayListener {

    /** The disk of the lesson is being made and opened, or another one lies on the desk. */
    void waiting(String why, boolean offerDisk);

    /** A step is shown. */
    void shown(StepWords words);

    /** An answer was judged. */
    void judged(boolean right, List<TextPart> explanation);

    /** The right answer was asked for. */
    void solved(List<TextPart> solution);

    /** The caret, the selection, the chosen finding or the changes by hand are others. */
    void moved();
}
