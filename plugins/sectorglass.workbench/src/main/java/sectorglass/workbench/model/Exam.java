package sectorglass.workbench.model;

/** Whether an exam runs, and who began it. While one runs, verdicts are held back: no findings, no signs, no meaning. */
public enum Exam {
    /** There is none. */
    NONE,
    /** Begun in the menu of this window; ended there. */
    HERE,
    /** Begun by a disk whose task sheet asks for it; only the teacher is to end it. */
    SHEET;

    /** Whether one runs. */
    public boolean runs() {
        return this != NONE;
    }
}
