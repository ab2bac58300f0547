package sectorglass.decode.internal.run;

import java.util.List;

import sectorglass.decode.FieldNode;
import sectorglass.decode.internal.text.Texts;

/** What all nodes share. Offsets are indexes in the data of the stream that the node lies in. */
public abstract class Node implements FieldNode {
    final Node parent;
    final FieldSpec spec;
    final int index;
    int offset;
    int length;
    Trouble trouble;

    Node(Node parent, FieldSpec spec, int index, int offset) {
        this.parent = parent;
        this.spec = spec;
        this.index = index;
        this.offset = offset;
    }

    /** The stream that the node lies in. */
    WindowStream place() {
        return parent.content();
    }

    /** The stream that children lie in. */
    WindowStream content() {
        return place();
    }

    /** The value as expressions see it; throws {@link Undecided} where there is none. */
    abstract Object expressionValue();

    /** The structure it belongs to. */
    final StructNode struct() {
        Node up = parent;
        while (up != null && !(up instanceof StructNode)) {
            up = up.parent;
        }
        return (StructNode) up;
    }

    /** How the field is defined. */
    public final FieldSpec spec() {
        return spec;
    }

    /** What is wrong, or null. */
    public final Trouble trouble() {
        return trouble;
    }

    @Override
    public final String id() {
        return index >= 0 ? String.valueOf(index) : spec.id();
    }

    @Override
    public final String path() {
        if (parent == null) {
            return "";
        }
        if (index >= 0) {
            return parent.path() + "[" + index + "]";
        }
        String above = parent.path();
        return above.isEmpty() ? spec.id() : above + "." + spec.id();
    }

    @Override
    public final String label() {
        return index >= 0 ? spec.label() + " [" + index + "]" : spec.label();
    }

    @Override
    public final FieldNode parent() {
        return parent;
    }

    @Override
    public List<FieldNode> children() {
        return List.of();
    }

    @Override
    public final long firstByte() {
        return place().source.address(offset);
    }

    @Override
    public final long length() {
        return place().source.length(length);
    }

    @Override
    public final long offset() {
        return place().source.offset(offset);
    }

    @Override
    public int bit() {
        return -1;
    }

    @Override
    public int bits() {
        return -1;
    }

    @Override
    public boolean bitsFromLeast() {
        return false;
    }

    @Override
    public final State state() {
        return trouble == null ? State.OK : trouble.state();
    }

    @Override
    public final String problem() {
        return trouble == null ? null : trouble.sentence();
    }

    @Override
    public String expected() {
        return null;
    }

    @Override
    public Object raw() {
        return null;
    }

    @Override
    public String meaning() {
        return null;
    }

    @Override
    public final String doc() {
        return spec.doc();
    }

    @Override
    public final String docRef() {
        return spec.docRef();
    }

    @Override
    public String unit() {
        return null;
    }

    @Override
    public Link link() {
        return null;
    }

    @Override
    public boolean unsigned64() {
        return false;
    }

    static String count(String key, long count) {
        return Texts.of(key, String.valueOf(count));
    }

    @Override
    public String toString() {
        return path() + " = " + value();
    }
}
