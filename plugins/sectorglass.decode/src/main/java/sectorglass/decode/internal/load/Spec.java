package sectorglass.decode.internal.load;

import java.util.Arrays;
import java.util.List;

import sectorglass.decode.Format;
import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.TypeSpec;

/** A loaded spec. */
public final class Spec implements Format {
    private final TypeSpec type;
    private final FieldSpec rootField;
    private final Universe universe;

    Spec(TypeSpec type, FieldSpec rootField, Universe universe) {
        this.type = type;
        this.rootField = rootField;
        this.universe = universe;
    }

    /** The outermost type. */
    public TypeSpec type() {
        return type;
    }

    /** What the root node is of. */
    public FieldSpec rootField() {
        return rootField;
    }

    Universe universe() {
        return universe;
    }

    @Override
    public String id() {
        return type.name();
    }

    @Override
    public String title() {
        return type.title() == null ? type.name() : type.title();
    }

    @Override
    public String doc() {
        return type.doc();
    }

    @Override
    public String docRef() {
        return type.docRef();
    }

    @Override
    public List<String> params() {
        return Arrays.stream(type.params()).map(FieldSpec::id).toList();
    }

    @Override
    public String toString() {
        return id();
    }
}
