package sectorglass.decode.internal.run;

import java.util.Arrays;
import java.util.List;

import sectorglass.decode.FieldNode;

/** A repeated field. */
public final class ArrayNode extends Node {
    private static final Node[] NONE = {};

    private final WindowStream place;
    private Node[] items;
    private int size;

    ArrayNode(Node parent, FieldSpec spec, WindowStream place, int expected) {
        super(parent, spec, -1, place.index());
        this.place = place;
        this.items = expected == 0 ? NONE : new Node[expected];
    }

    void add(Node item) {
        if (size == items.length) {
            items = Arrays.copyOf(items, Math.max(4, size + (size >> 1)));
        }
        items[size++] = item;
    }

    void finish() {
        if (items.length > size) {
            items = Arrays.copyOf(items, size);
        }
        if (size > 0) {
            Node first = items[0];
            offset = first.offset;
        }
    }

    Node get(int i) {
        return items[i];
    }

    int size() {
        return size;
    }

    @Override
    WindowStream place() {
        return place;
    }

    @Override
    Object expressionValue() {
        if (trouble != null && trouble.cause() != Trouble.Cause.FEWER && size == 0) {
            throw new Undecided(trouble.forDependent(spec.id()));
        }
        return this;
    }

    @Override
    public Kind kind() {
        return Kind.ARRAY;
    }

    @Override
    public List<FieldNode> children() {
        return new NodeList(items, size);
    }

    @Override
    public String value() {
        return count(size == 1 ? "value.element" : "value.elements", size);
    }
}
