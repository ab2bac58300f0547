package sectorglass.decode;

import java.util.List;

/** A spec that was read and checked, ready to run. Immutable, safe for several threads. */
public interface Format {

    /** {@code meta/id}. */
    String id();

    /** {@code meta/title}, else the id. */
    String title();

    /** The spec's own {@code doc}, or null. */
    String doc();

    /** The spec's {@code doc-ref}, or null. */
    String docRef();

    /** Ids of the parameters that must be given. */
    List<String> params();
}
