package sectorglass.workbench.findings;

import sectorglass.image.ByteRange;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Sign;

/**
 * A row of the list.
 *
 * @param key of the group that the row heads, or null
 * @param finding what it shows; null where it is only the head of a group
 * @param structure bytes of the structure that the group is about, or null
 * @param depth 0, or 1 under a head
 * @param below rows under this head, shown or not
 * @param worst the gravest sign in the row and below it
 */
record Row(String key, Finding finding, ByteRange structure, int depth, int below, Sign worst) {

    boolean head() {
        return key != null && below > 0;
    }
}
