package sectorglass.workbench.model;

/** Hears what happens on the desk; called on the window's thread. */
public interface DeskListener {

    /** Another disk was opened, or none is open now. */
    default void diskChanged() {
        // not every part cares
    }

    /** The checks of the open disk have ended. */
    default void findingsChanged() {
        // not every part cares
    }

    /** The caret or the selection moved. */
    default void caretMoved() {
        // not every part cares
    }

    /** The structure and field at the caret are known now, or it is known that there is none. */
    default void explained() {
        // not every part cares
    }

    /** Fields of a part of the image became known. */
    default void glossReady() {
        // not every part cares
    }

    /** A mark was added, changed or taken away, or those of another image were read. */
    default void marksChanged() {
        // not every part cares
    }

    /** A finding was accepted, an approval recorded, or what the job of another image records was read. */
    default void recordsChanged() {
        // not every part cares
    }

    /** Bytes that are seen have come. */
    default void bytesReady() {
        // not every part cares
    }

    /** A search found something else, or its result is not shown any more. */
    default void foundChanged() {
        // not every part cares
    }

    /** Other sectors are marked as belonging together. */
    default void markedChanged() {
        // not every part cares
    }

    /** Another finding was chosen. */
    default void findingChosen() {
        // not every part cares
    }

    /** Fields were covered or uncovered. */
    default void coverChanged() {
        // not every part cares
    }

    /** An exam began or ended. */
    default void examChanged() {
        // not every part cares
    }
}
