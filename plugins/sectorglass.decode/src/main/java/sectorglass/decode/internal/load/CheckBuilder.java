package sectorglass.decode.internal.load;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

import sectorglass.decode.internal.run.Check;
import sectorglass.decode.internal.run.Checks;
import sectorglass.decode.internal.run.Constant;
import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.ValueType;
import sectorglass.decode.internal.run.ValueType.Kind;

/** Builds what {@code valid} and {@code contents} ask for. */
final class CheckBuilder {
    private static final Set<String> KEYS = Set.of("eq", "min", "max", "any-of", "expr", "in-enum");

    private final ExprCompiler compiler;

    CheckBuilder(ExprCompiler compiler) {
        this.compiler = compiler;
    }

    Check of(FieldDraft field) {
        YamlMap map = field.map;
        if (map.has("contents")) {
            byte[] contents = contents(field);
            if (contents == null) {
                return null;
            }
            if (map.has("type")) {
                map.problem(map.keyNode("contents"), "'contents' says the type: leave that out");
            }
            if (map.has("size") && map.scalar("size") != null && !String.valueOf(contents.length).equals(map.scalar("size").getValue())) {
                map.problem(map.keyNode("size"), "'contents' has " + contents.length + " bytes: leave 'size' out");
            }
            return Checks.equal(new Constant(ValueType.BYTES, contents), field.spec.presentation(), field.spec.type());
        }
        Node valid = map.get("valid");
        if (valid == null) {
            return null;
        }
        if (valid instanceof ScalarNode) {
            Expr expr = value(field, valid);
            return expr == null ? null : Checks.equal(expr, field.spec.presentation(), field.spec.type());
        }
        if (!(valid instanceof MappingNode mapping)) {
            map.problem(valid, "'valid' must be a value, or a mapping with eq, min, max, any-of, expr or in-enum");
            return null;
        }
        return rules(field, new YamlMap(map.file(), map.problems(), mapping));
    }

    private Check rules(FieldDraft field, YamlMap valid) {
        valid.allow(KEYS, "'valid'");
        long kinds = KEYS.stream().filter(key -> valid.has(key) && !key.equals("max")).count();
        boolean range = valid.has("min") || valid.has("max");
        if (kinds > 1 || range && kinds == 1 && !valid.has("min")) {
            valid.problem(valid.node(), "'valid' takes one of eq, any-of, expr and in-enum, or min and max");
        } else if (kinds == 0 && !range) {
            valid.problem(valid.node(), "'valid' needs eq, min, max, any-of, expr or in-enum");
        }
        List<Check> all = new ArrayList<>();
        if (valid.has("eq")) {
            Expr expr = value(field, valid.get("eq"));
            if (expr != null) {
                all.add(Checks.equal(expr, field.spec.presentation(), field.spec.type()));
            }
        }
        if (valid.has("min") || valid.has("max")) {
            Expr min = valid.has("min") ? value(field, valid.get("min")) : null;
            Expr max = valid.has("max") ? value(field, valid.get("max")) : null;
            all.add(Checks.range(min, max, field.spec.presentation(), field.spec.type()));
        }
        if (valid.has("any-of")) {
            List<Expr> values = new ArrayList<>();
            for (Node item : valid.list("any-of")) {
                values.add(value(field, item));
            }
            if (!values.contains(null)) {
                all.add(Checks.anyOf(values.toArray(Expr[]::new), field.spec.presentation(), field.spec.type()));
            }
        }
        if (valid.get("expr") instanceof ScalarNode scalar) {
            Site site = new Site(field.owner.spec, field.map.file(), scalar, field.spec.type());
            Expr expr = compiler.compile(site, Kind.BOOL);
            if (expr != null) {
                all.add(Checks.holds(expr, scalar.getValue().strip()));
            }
        }
        if (valid.flag("in-enum", false)) {
            if (field.spec.type().is(Kind.ENUM)) {
                all.add(Checks.inEnum(field.spec.type().enumeration()));
            } else {
                valid.problem(valid.keyNode("in-enum"), "'in-enum' needs a field with 'enum'");
            }
        }
        return all.isEmpty() ? null : all.size() == 1 ? all.get(0) : Checks.all(all);
    }

    private Expr value(FieldDraft field, Node node) {
        if (!(node instanceof ScalarNode)) {
            field.map.problem(node, "a value must be an expression");
            return null;
        }
        ValueType type = field.spec.type();
        Expr expr = compiler.compile(new Site(field.owner.spec, field.map.file(), node, null), null);
        if (expr == null) {
            return null;
        }
        ValueType given = expr.type();
        boolean fits = type.is(Kind.ANY) || given.is(Kind.ANY) || type.number() && given.number() || type.kind() == given.kind()
                || type.is(Kind.BYTES) && given.is(Kind.ARRAY) || type.is(Kind.ENUM) && given.equals(type);
        if (!fits) {
            field.map.problem(node, "the field is " + type.words() + ", but this is " + given.words());
            return null;
        }
        return expr;
    }

    /** The bytes of {@code contents}; null with a problem. */
    static byte[] contents(FieldDraft field) {
        return octets(field, "contents");
    }

    static byte[] octets(FieldDraft field, String key) {
        Node node = field.map.get(key);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        if (node instanceof ScalarNode scalar) {
            if (key.equals("contents") && scalar.isPlain() && YamlMap.number(scalar.getValue()) != null) {
                field.map.problem(node, "'contents' must be text or a list: [" + scalar.getValue() + "] is one byte");
                return null;
            }
            bytes.writeBytes(scalar.getValue().getBytes(StandardCharsets.UTF_8));
            return bytes.toByteArray();
        }
        if (!(node instanceof SequenceNode sequence)) {
            field.map.problem(node, "'" + key + "' must be text or a list of bytes and texts");
            return null;
        }
        for (Node item : sequence.getValue()) {
            if (!(item instanceof ScalarNode scalar)) {
                field.map.problem(item, "'" + key + "' must hold bytes and texts");
                return null;
            }
            Long number = scalar.isPlain() ? YamlMap.number(scalar.getValue()) : null;
            if (number == null) {
                bytes.writeBytes(scalar.getValue().getBytes(StandardCharsets.UTF_8));
            } else if (number < 0 || number > 255) {
                field.map.problem(item, "a byte must be a number from 0 to 255");
                return null;
            } else {
                bytes.write(number.intValue());
            }
        }
        return bytes.toByteArray();
    }
}
