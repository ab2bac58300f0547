package sectorglass.decode.internal.load;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

import sectorglass.decode.internal.expr.ExprParser;
import sectorglass.decode.internal.expr.SyntaxException;
import sectorglass.decode.internal.run.IntStep;
import sectorglass.decode.internal.run.TypeSpec;
import sectorglass.decode.internal.run.ValueType;

/** Understands {@code type} keys and type names in expressions. */
final class TypeNames {
    private static final Pattern NUMBER = Pattern.compile("([usf])([1248])(le|be)?");
    private static final Pattern BITS = Pattern.compile("b([1-9][0-9]?)(le|be)?");

    private final Universe universe;

    TypeNames(Universe universe) {
        this.universe = universe;
    }

    /** What the {@code type} key of a field says; null with a problem. */
    DataType of(FieldDraft field) {
        Node node = field.map.get("type");
        if (node instanceof MappingNode mapping) {
            return switched(field, new YamlMap(field.map.file(), universe.problems, mapping));
        }
        String text = field.map.text("type");
        return text == null ? null : parse(field, node, text);
    }

    private DataType switched(FieldDraft field, YamlMap map) {
        map.allow(java.util.Set.of("switch-on", "cases"), "a switched type");
        if (!map.has("switch-on")) {
            map.problem(map.node(), "a type that depends on a value needs 'switch-on'");
        }
        List<DataType.Case> cases = new ArrayList<>();
        DataType otherwise = null;
        YamlMap all = map.map("cases");
        if (all == null) {
            map.problem(map.node(), "a type that depends on a value needs 'cases'");
            return new DataType.Switch(map, cases, null);
        }
        for (String key : all.keys()) {
            String text = all.text(key);
            DataType type = text == null ? null : parse(field, all.get(key), text);
            if (key.equals("_")) {
                otherwise = type;
            } else if (type != null) {
                cases.add(new DataType.Case(all.keyNode(key), type));
            }
        }
        return new DataType.Switch(map, cases, otherwise);
    }

    private DataType parse(FieldDraft field, Node node, String text) {
        DataType builtin = builtin(text, field.owner.spec);
        if (builtin != null) {
            if (builtin instanceof DataType.Number number && number.width() > 1 && number.order() == IntStep.Order.OF_STRUCT
                    && field.owner.spec.order() == TypeSpec.Order.NONE && field.spec.place() != sectorglass.decode.internal.run.FieldSpec.Place.PARAM) {
                field.map.problem(node, "the byte order of " + text + " is not known: give meta/endian, or write " + text + "le or " + text
                        + "be");
            }
            return builtin;
        }
        try {
            ExprParser.TypeUse use = ExprParser.parseType(text);
            if (use.array()) {
                ValueType element = value(field.owner.spec, use.name());
                if (element != null) {
                    return new DataType.Abstract(ValueType.array(element));
                }
            } else {
                TypeSpec type = universe.type(field.owner.spec, List.of(use.name().split("::")));
                if (type != null) {
                    return new DataType.Struct(type, use.arguments(), node);
                }
            }
            field.map.problem(node, Words.unknown("the type '" + use.name() + "' is not defined in this spec nor in its imports", use.name(),
                    names(field.owner.spec)));
        } catch (SyntaxException e) {
            universe.problems.add(field.map.file(), node.getStartMark(), e.at() + quote(node), "in the type: " + e.getMessage());
        }
        return null;
    }

    private List<String> names(TypeSpec from) {
        List<String> names = new ArrayList<>(List.of("u1", "u2", "u4", "u8", "s1", "s2", "s4", "s8", "f4", "f8", "str", "strz"));
        for (TypeSpec scope = from; scope != null; scope = scope.outer()) {
            names.addAll(scope.types().keySet());
        }
        names.addAll(universe.tops.keySet());
        return names;
    }

    static int quote(Node node) {
        return node instanceof ScalarNode scalar && !scalar.isPlain() ? 1 : 0;
    }

    private static DataType builtin(String text, TypeSpec owner) {
        Matcher number = NUMBER.matcher(text);
        if (number.matches()) {
            int width = number.group(2).charAt(0) - '0';
            boolean real = number.group(1).equals("f");
            if (real && width < 4) {
                return null;
            }
            IntStep.Order order = "le".equals(number.group(3)) ? IntStep.Order.LITTLE : "be".equals(number.group(3)) ? IntStep.Order.BIG
                    : switch (owner.order()) {
                        case LITTLE -> IntStep.Order.LITTLE;
                        case BIG -> IntStep.Order.BIG;
                        default -> IntStep.Order.OF_STRUCT;
                    };
            return new DataType.Number(width, number.group(1).equals("s"), real, order);
        }
        Matcher bits = BITS.matcher(text);
        if (bits.matches() && Integer.parseInt(bits.group(1)) <= 64) {
            return new DataType.Bits(Integer.parseInt(bits.group(1)), bits.group(2) == null ? owner.littleBits() : bits.group(2).equals("le"));
        }
        return switch (text) {
            case "str" -> new DataType.Text(false);
            case "strz" -> new DataType.Text(true);
            case "bytes" -> new DataType.Bytes();
            case "bool" -> new DataType.Abstract(ValueType.BOOL);
            case "io" -> new DataType.Abstract(ValueType.IO);
            case "struct" -> new DataType.Abstract(ValueType.STRUCT);
            case "any" -> new DataType.Abstract(ValueType.ANY);
            default -> null;
        };
    }

    /** The type of values that a name stands for in an expression, or null. */
    ValueType value(TypeSpec from, String name) {
        if (name.endsWith("[]")) {
            ValueType element = value(from, name.substring(0, name.length() - 2));
            return element == null ? null : ValueType.array(element);
        }
        DataType builtin = builtin(name, from);
        if (builtin != null) {
            return value(builtin);
        }
        TypeSpec type = universe.type(from, List.of(name.split("::")));
        return type == null ? null : ValueType.struct(type);
    }

    /** The type of one value of a data type. */
    static ValueType value(DataType type) {
        if (type instanceof DataType.Number number) {
            return number.real() ? ValueType.FLOAT : number.width() == 8 && !number.signed() ? ValueType.U64 : ValueType.INT;
        }
        if (type instanceof DataType.Bits bits) {
            return bits.width() == 1 ? ValueType.BOOL : bits.width() == 64 ? ValueType.U64 : ValueType.INT;
        }
        if (type instanceof DataType.Bytes) {
            return ValueType.BYTES;
        }
        if (type instanceof DataType.Text) {
            return ValueType.STR;
        }
        if (type instanceof DataType.Struct struct) {
            return ValueType.struct(struct.type());
        }
        if (type instanceof DataType.Abstract given) {
            return given.type();
        }
        ValueType all = null;
        DataType.Switch cases = (DataType.Switch) type;
        for (DataType.Case one : cases.cases()) {
            ValueType next = value(one.type());
            all = all == null ? next : all.or(next);
        }
        if (cases.otherwise() != null) {
            ValueType next = value(cases.otherwise());
            all = all == null ? next : all.or(next);
        }
        return all == null ? ValueType.ANY : all;
    }

    /** Width in bits where every value has the same, else -1. */
    static long bits(DataType type) {
        if (type instanceof DataType.Number number) {
            return number.width() * 8L;
        }
        return type instanceof DataType.Bits bits ? bits.width() : -1;
    }
}
