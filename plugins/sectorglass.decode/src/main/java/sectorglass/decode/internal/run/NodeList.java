package sectorglass.decode.internal.run;

import java.util.AbstractList;
import java.util.RandomAccess;

import sectorglass.decode.FieldNode;

/** A list view of an array of nodes; one object per call, no copy. */
final class NodeList extends AbstractList<FieldNode> implements RandomAccess {
    private final Node[] nodes;
    private final int size;

    NodeList(Node[] nodes, int size) {
        this.nodes = nodes;
        this.size = size;
    }

    @Override
    public FieldNode get(int index) {
        if (index < 0 || index >= size) {
            throw new IndexOutOfBoundsException(index);
        }
        return nodes[index];
    }

    @Override
    public int size() {
        return size;
    }
}
