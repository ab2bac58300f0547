package sectorglass.image.store;

import sectorglass.image.ReadState;

/** Hears which of the bytes asked for could not be delivered. */
@FunctionalInterface
public interface Faults {

    /**
     * Some bytes are no data.
     *
     * @param from offset from the first byte asked for
     * @param length number of bytes, at least 1
     * @param state {@link ReadState#FAILED} or {@link ReadState#UNREAD}
     */
    void missing(int from, int length, ReadState state);
}
