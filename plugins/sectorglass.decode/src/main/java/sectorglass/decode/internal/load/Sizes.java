package sectorglass.decode.internal.load;

import java.util.HashMap;
import java.util.Map;

import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

import sectorglass.decode.internal.expr.Ast;
import sectorglass.decode.internal.run.Constant;
import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.TypeSpec;
import sectorglass.decode.internal.run.ValueType;

/** Sizes that follow from the spec alone, in bits. */
final class Sizes {
    private static final long DYNAMIC = -1;
    private static final long BUSY = -2;

    private final Universe universe;
    private final Map<TypeSpec, Long> known = new HashMap<>();

    Sizes(Universe universe) {
        this.universe = universe;
    }

    /** {@code sizeof<type>} and {@code bitsizeof<type>}. */
    Expr ofType(Site site, Ast.SizeOf ast, TypeNames names) throws CompileException {
        java.util.regex.Matcher number = java.util.regex.Pattern.compile("[usf]([1248])(le|be)?").matcher(ast.type());
        java.util.regex.Matcher bits = java.util.regex.Pattern.compile("b([1-9][0-9]?)(le|be)?").matcher(ast.type());
        long size;
        if (number.matches()) {
            size = 8L * (number.group(1).charAt(0) - '0');
        } else if (bits.matches()) {
            size = Long.parseLong(bits.group(1));
        } else {
            ValueType type = names.value(site.scope(), ast.type());
            if (type == null) {
                throw new CompileException(ast.at(), "the type '" + ast.type() + "' is not defined in this spec nor in its imports");
            }
            size = type.struct() == null ? DYNAMIC : bits(type.struct());
        }
        if (size < 0) {
            throw new CompileException(ast.at(), "the size of " + ast.type() + " depends on the bytes");
        }
        return new Constant(ValueType.INT, ast.bits() ? size : (size + 7) / 8);
    }

    /** Bits of a type, or negative where they depend on the bytes. */
    long bits(TypeSpec type) {
        Long before = known.putIfAbsent(type, BUSY);
        if (before != null) {
            return before;
        }
        long sum = 0;
        for (FieldDraft field : universe.drafts.get(type).seq) {
            long bits = bits(field);
            if (bits < 0) {
                sum = DYNAMIC;
                break;
            }
            if (!(field.data instanceof DataType.Bits)) {
                sum = (sum + 7) / 8 * 8;
            }
            sum += bits;
        }
        known.put(type, sum);
        return sum;
    }

    /** Bits of a field, or negative where they depend on the bytes. */
    long bits(FieldDraft field) {
        YamlMap map = field.map;
        if (map.has("if") || map.has("repeat") && !map.has("repeat-expr")) {
            return DYNAMIC;
        }
        long one = one(field);
        if (map.has("repeat")) {
            Long count = map.get("repeat-expr") instanceof ScalarNode scalar ? YamlMap.number(scalar.getValue()) : null;
            return count == null || one < 0 || count < 0 || count > Integer.MAX_VALUE ? DYNAMIC : one * count;
        }
        return one;
    }

    private long one(FieldDraft field) {
        YamlMap map = field.map;
        if (map.get("size") instanceof ScalarNode scalar) {
            Long size = YamlMap.number(scalar.getValue());
            return size == null || size < 0 || size > Integer.MAX_VALUE ? DYNAMIC : size * 8;
        }
        if (map.has("size-eos") || map.has("terminator")) {
            return DYNAMIC;
        }
        if (map.has("contents")) {
            return contents(map.get("contents"));
        }
        if (field.data instanceof DataType.Struct struct) {
            return bits(struct.type());
        }
        return field.data == null ? DYNAMIC : TypeNames.bits(field.data);
    }

    private static long contents(Node node) {
        if (node instanceof ScalarNode scalar) {
            return scalar.getValue().getBytes(java.nio.charset.StandardCharsets.UTF_8).length * 8L;
        }
        long sum = 0;
        for (Node item : ((SequenceNode) node).getValue()) {
            String text = ((ScalarNode) item).getValue();
            sum += YamlMap.number(text) != null ? 8 : text.getBytes(java.nio.charset.StandardCharsets.UTF_8).length * 8L;
        }
        return sum;
    }
}
