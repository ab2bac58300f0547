package sectorglass.practice.lesson;

import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.image.ByteRange;

/** What a person did. */
public sealed interface Answer {

    /** The step was read. */
    record Read() implements Answer { }

    /**
     * The caret was put on a byte.
     *
     * @param imageByte the byte of the image
     */
    record OnByte(long imageByte) implements Answer { }

    /**
     * Bytes were selected.
     *
     * @param range image bytes
     */
    record Selected(ByteRange range) implements Answer { }

    /**
     * Something was typed.
     *
     * @param text as it was typed
     */
    record Typed(String text) implements Answer { }

    /**
     * A finding was chosen.
     *
     * @param check id of its rule
     * @param firstByte first image byte it is about
     */
    record Chosen(String check, long firstByte) implements Answer { }

    /**
     * Bytes were changed by hand, over the image.
     *
     * @param changes all changes that stand over the image, checksums that were recomputed included
     */
    record Changed(List<Repair.Change> changes) implements Answer {

        /** Makes the list fixed. */
        public Changed {
            changes = List.copyOf(changes);
        }
    }
}
