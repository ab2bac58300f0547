package sectorglass.workbench.model;

import java.util.Comparator;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;

/**
 * A cover over names, values and meanings, so that a class can be asked what a field is before it is told. While it lies there, a field
 * shows its bytes and its bracket alone until it is uncovered. For the thread of the window.
 */
public final class Cover {
    private final Runnable changed;
    private final Set<String> uncovered = new HashSet<>();
    private boolean on;

    Cover(Runnable changed) {
        this.changed = changed;
    }

    /** Whether the cover lies over the fields. */
    public boolean on() {
        return on;
    }

    /** Lays the cover over all fields, or takes it away. */
    public void on(boolean wanted) {
        on = wanted;
        uncovered.clear();
        changed.run();
    }

    /** Covers all again that were uncovered one by one. */
    public void again() {
        on(true);
    }

    /** Whether name, value and meaning of a field are hidden; those of a group of fields are while all of its fields are. */
    public boolean hides(FieldNode node) {
        if (!on || node == null) {
            return false;
        }
        if (node.kind() == FieldNode.Kind.VALUE) {
            return !uncovered.contains(key(node));
        }
        return uncovered.isEmpty() || FieldWalk.values(node).stream().noneMatch(value -> uncovered.contains(key(value)));
    }

    /** Uncovers one field, or all fields of a group. */
    public void uncover(FieldNode node) {
        if (on && node != null) {
            FieldWalk.values(node).forEach(value -> uncovered.add(key(value)));
            changed.run();
        }
    }

    /**
     * Uncovers the first field of a structure that is covered, by address; fields that are only computed come last.
     *
     * @param explained the structure; may be null
     * @return the field, or empty where none is covered any more
     */
    public Optional<FieldNode> next(Explained explained) {
        if (!on || explained == null || explained.root() == null) {
            return Optional.empty();
        }
        Optional<FieldNode> found = FieldWalk.values(explained.root()).stream().filter(this::hides)
                .min(Comparator.comparing((FieldNode value) -> value.length() == 0).thenComparingLong(FieldNode::firstByte)
                        .thenComparingInt(value -> value.bitsFromLeast() ? -value.bit() : value.bit()));
        found.ifPresent(this::uncover);
        return found;
    }

    private static String key(FieldNode node) {
        return node.firstByte() + " " + node.length() + " " + node.path();
    }
}
