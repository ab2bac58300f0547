package sectorglass.decode.internal.run;

/** A value that does not lie in the stream of its structure: an instance with its own {@code io}. */
final class ForeignNode extends ValueNode {
    private final WindowStream place;

    ForeignNode(Node parent, FieldSpec spec, int index, int offset, WindowStream place) {
        super(parent, spec, index, offset);
        this.place = place;
    }

    @Override
    WindowStream place() {
        return place;
    }
}
