package sectorglass.decode.internal.load;

import java.util.List;

import org.yaml.snakeyaml.nodes.Node;

import sectorglass.decode.internal.expr.Ast;
import sectorglass.decode.internal.run.IntStep;
import sectorglass.decode.internal.run.TypeSpec;

/** What a {@code type} key says. */
sealed interface DataType {

    /** A whole number or a fraction of a fixed width in bytes. */
    record Number(int width, boolean signed, boolean real, IntStep.Order order) implements DataType { }

    /** A bit field. */
    record Bits(int width, boolean little) implements DataType { }

    /** Bytes. */
    record Bytes() implements DataType { }

    /** Text; {@code zero}: up to a zero. */
    record Text(boolean zero) implements DataType { }

    /** A structure. */
    record Struct(TypeSpec type, List<Ast> arguments, Node node) implements DataType { }

    /** A type that depends on a value. */
    record Switch(YamlMap map, List<Case> cases, DataType otherwise) implements DataType { }

    /** Values that only parameters have: {@code bool}, {@code io}, {@code any}, {@code struct}, or an array of something. */
    record Abstract(sectorglass.decode.internal.run.ValueType type) implements DataType { }

    /** A case; the key's node tells its place. */
    record Case(Node key, DataType type) { }
}
