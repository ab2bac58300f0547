package sectorglass.decode.internal.load;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

import sectorglass.decode.internal.expr.Ast;
import sectorglass.decode.internal.expr.ExprParser;
import sectorglass.decode.internal.expr.SyntaxException;
import sectorglass.decode.internal.run.BitsStep;
import sectorglass.decode.internal.run.BytesStep;
import sectorglass.decode.internal.run.Charsets;
import sectorglass.decode.internal.run.Constant;
import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.Extent;
import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.IfStep;
import sectorglass.decode.internal.run.IntStep;
import sectorglass.decode.internal.run.PosStep;
import sectorglass.decode.internal.run.Process;
import sectorglass.decode.internal.run.RepeatStep;
import sectorglass.decode.internal.run.Step;
import sectorglass.decode.internal.run.StructStep;
import sectorglass.decode.internal.run.SwitchStep;
import sectorglass.decode.internal.run.ValueStep;
import sectorglass.decode.internal.run.ValueType;
import sectorglass.decode.internal.run.ValueType.Kind;

/** Builds the steps that read fields. */
final class StepBuilder {
    private static final Set<String> BESIDE_VALUE = Set.of("value", "id", "doc", "doc-ref", "enum", "if");

    private final ExprCompiler compiler;
    private final Universe universe;
    private final CheckBuilder checks;

    StepBuilder(Universe universe, ExprCompiler compiler) {
        this.universe = universe;
        this.compiler = compiler;
        this.checks = new CheckBuilder(compiler);
    }

    /** Builds the step of a field in sequence. */
    void seq(FieldDraft field) {
        field.spec.presentation(Presentations.of(field));
        field.spec.check(checks.of(field));
        field.spec.step(conditional(field, repeated(field, element(field))));
    }

    /** Builds the step of an instance. */
    void instance(FieldDraft field) {
        field.spec.presentation(Presentations.of(field));
        field.spec.check(checks.of(field));
        YamlMap map = field.map;
        if (map.has("value")) {
            for (String key : map.keys()) {
                if (!key.startsWith("-") && !BESIDE_VALUE.contains(key)) {
                    map.problem(map.keyNode(key), "'" + key + "' cannot stand beside 'value'");
                }
            }
            if (field.value != null) {
                field.spec.step(conditional(field, new ValueStep(field.spec, field.value)));
            }
            return;
        }
        Expr io = expr(field, "io", Kind.IO, null);
        Expr pos = expr(field, "pos", Kind.INT, null);
        Step step = repeated(field, element(field));
        field.spec.step(conditional(field, new PosStep(field.spec, io, pos, step)));
    }

    private Site site(FieldDraft field, String key, ValueType item) {
        return new Site(field.owner.spec, field.map.file(), field.map.get(key), item);
    }

    private Expr expr(FieldDraft field, String key, Kind wanted, ValueType item) {
        ScalarNode node = field.map.scalar(key);
        return node == null ? null : compiler.compile(site(field, key, item), wanted);
    }

    private Step conditional(FieldDraft field, Step step) {
        Expr condition = expr(field, "if", Kind.BOOL, null);
        return condition == null ? step : new IfStep(field.spec, condition, step);
    }

    private Step repeated(FieldDraft field, Step element) {
        YamlMap map = field.map;
        String repeat = map.text("repeat");
        if (repeat == null) {
            for (String key : List.of("repeat-expr", "repeat-until")) {
                if (map.has(key)) {
                    map.problem(map.keyNode(key), "'" + key + "' needs 'repeat: " + key.substring(7) + "'");
                }
            }
            return element;
        }
        for (String key : List.of("repeat-expr", "repeat-until")) {
            if (map.has(key) && !key.equals("repeat-" + repeat)) {
                map.problem(map.keyNode(key), "'" + key + "' cannot stand beside 'repeat: " + repeat + "'");
            }
        }
        switch (repeat) {
            case "eos":
                return new RepeatStep(field.spec, RepeatStep.Mode.END, null, element);
            case "expr", "until": {
                boolean count = repeat.equals("expr");
                String key = "repeat-" + repeat;
                if (!map.has(key)) {
                    map.problem(map.get("repeat"), "'repeat: " + repeat + "' needs '" + key + "'");
                    return element;
                }
                Expr expr = expr(field, key, count ? Kind.INT : Kind.BOOL, field.spec.type());
                return new RepeatStep(field.spec, count ? RepeatStep.Mode.COUNT : RepeatStep.Mode.UNTIL, expr, element);
            }
            default:
                map.problem(map.get("repeat"), "'repeat' must be expr, until or eos");
                return element;
        }
    }

    private Step element(FieldDraft field) {
        Process process = process(field);
        Extent extent = extent(field, field.data);
        if (process != null && extent == null) {
            field.map.problem(field.map.get("process"), "'process' needs bytes with a known end: size, size-eos or terminator");
        }
        if (field.data instanceof DataType.Switch cases) {
            return switched(field, cases, extent, process);
        }
        boolean said = List.of("type", "size", "terminator", "contents").stream().anyMatch(field.map::has) || field.map.flag("size-eos", false);
        if (!said) {
            field.map.problem(field.map.node(), "the field '" + field.spec.id()
                    + "' has no type and no known end: give type, size, size-eos, terminator or contents");
        }
        if (field.map.has("encoding") && !(field.data instanceof DataType.Text)) {
            field.map.problem(field.map.keyNode("encoding"), "'encoding' is for text only: the types str and strz");
        }
        if (field.data instanceof DataType.Bytes) {
            field.map.problem(field.at("type"), "only a parameter can have the type bytes; a field of bytes has no 'type'");
        }
        return plain(field, field.spec, field.data, extent, process);
    }

    private Step switched(FieldDraft field, DataType.Switch cases, Extent extent, Process process) {
        if (!(cases.map().get("switch-on") instanceof ScalarNode on)) {
            return null;
        }
        Site site = new Site(field.owner.spec, field.map.file(), on, null);
        Expr value = compiler.compile(site, null);
        List<Expr> keys = new ArrayList<>();
        List<Step> steps = new ArrayList<>();
        for (DataType.Case one : cases.cases()) {
            Expr key = compiler.compile(new Site(site.scope(), site.file(), one.key(), null), null);
            if (key != null && value != null && !fits(value.type(), key.type())) {
                universe.problems.add(site.file(), one.key(), "this case is " + key.type().words() + ", but the value is " + value.type()
                        .words());
            }
            keys.add(key);
            steps.add(variant(field, one.type(), extent, process));
        }
        Step bytes = extent == null ? null : variant(field, new DataType.Bytes(), extent, process);
        Step otherwise = cases.otherwise() == null ? bytes : variant(field, cases.otherwise(), extent, process);
        if (value == null || keys.contains(null)) {
            return null;
        }
        return new SwitchStep(field.spec, value, keys.toArray(Expr[]::new), steps.toArray(Step[]::new), otherwise, bytes);
    }

    private static boolean fits(ValueType value, ValueType key) {
        return value.is(Kind.ANY) || key.is(Kind.ANY) || value.number() && key.number() || value.kind() == key.kind() && (!value.is(Kind.ENUM)
                || value.equals(key));
    }

    private Step variant(FieldDraft field, DataType type, Extent extent, Process process) {
        FieldSpec spec = field.spec.variant();
        ValueType value = TypeNames.value(type);
        if (field.spec.type().is(Kind.ENUM) && (value.is(Kind.INT) || value.is(Kind.BOOL))) {
            value = field.spec.type();
        }
        spec.type(value, field.spec.repeated());
        Extent own = type instanceof DataType.Text text && text.zero() ? extent(field, type) : extent;
        return plain(field, spec, type, own, process);
    }

    private Step plain(FieldDraft field, FieldSpec spec, DataType type, Extent extent, Process process) {
        if (type instanceof DataType.Number number) {
            return new IntStep(spec, number.width(), number.signed(), number.real(), number.order());
        }
        if (type instanceof DataType.Bits bits) {
            spec.little(bits.little());
            return new BitsStep(spec, bits.width());
        }
        if (type instanceof DataType.Struct struct) {
            return struct(field, spec, struct, extent, process);
        }
        if (type instanceof DataType.Abstract) {
            field.map.problem(field.at("type"), "only a parameter can have this type");
            return null;
        }
        if (type instanceof DataType.Text && extent == null) {
            field.map.problem(field.at("type"), "text needs a known end: size, size-eos, terminator, or the type strz");
            return null;
        }
        if (type instanceof DataType.Text) {
            String encoding = encoding(field);
            if (encoding == null) {
                field.map.problem(field.at("type"), "the encoding of the text is not known: give 'encoding' here or in meta");
                return null;
            }
            spec.charset(Charsets.of(encoding));
        }
        return extent == null ? null : new BytesStep(spec, extent, process);
    }

    private static String encoding(FieldDraft field) {
        String own = field.map.text("encoding");
        return own == null ? field.owner.spec.encoding() : own;
    }

    private Step struct(FieldDraft field, FieldSpec spec, DataType.Struct struct, Extent extent, Process process) {
        Site site = new Site(field.owner.spec, field.map.file(), struct.node(), null);
        List<FieldDraft> params = universe.drafts.get(struct.type()).params;
        if (params.size() != struct.arguments().size()) {
            universe.problems.add(site.file(), struct.node(), "the type " + struct.type().path() + " takes " + params.size()
                    + " parameters, not " + struct.arguments().size());
        }
        Expr[] arguments = new Expr[struct.arguments().size()];
        for (int i = 0; i < arguments.length; i++) {
            arguments[i] = compiler.compileAst(site, struct.arguments().get(i));
            if (arguments[i] == null) {
                return null;
            }
            if (i < params.size()) {
                argument(site, params.get(i), arguments[i]);
            }
        }
        String parent = field.map.text("parent");
        boolean orphan = "false".equals(parent);
        Expr parentExpr = parent == null || orphan ? null : expr(field, "parent", Kind.STRUCT, null);
        return new StructStep(spec, struct.type(), arguments, extent, process, orphan, parentExpr);
    }

    private void argument(Site site, FieldDraft param, Expr given) {
        ValueType wanted = param.spec.wholeType();
        ValueType type = given.type();
        boolean fits = wanted.is(Kind.ANY) || type.is(Kind.ANY) || wanted.number() && type.number() || wanted.kind() == type.kind()
                || wanted.is(Kind.ARRAY) && type.is(Kind.BYTES) || wanted.is(Kind.BYTES) && type.is(Kind.ARRAY);
        if (!fits) {
            universe.problems.add(site.file(), site.node(), "the parameter '" + param.spec.id() + "' is " + wanted.words()
                    + ", but it is given " + type.words());
        }
    }

    private Process process(FieldDraft field) {
        String text = field.map.text("process");
        if (text == null) {
            return null;
        }
        Node node = field.map.get("process");
        try {
            ExprParser.TypeUse use = ExprParser.parseType(text);
            Process.Kind kind = switch (use.name()) {
                case "xor" -> Process.Kind.XOR;
                case "rol" -> Process.Kind.ROL;
                case "ror" -> Process.Kind.ROR;
                case "zlib" -> Process.Kind.ZLIB;
                default -> null;
            };
            if (kind == null) {
                field.map.problem(node, "the process '" + use.name()
                        + "' is custom code, which is not run here: xor, rol, ror and zlib are known");
                return null;
            }
            int wanted = kind == Process.Kind.ZLIB ? 0 : 1;
            if (use.arguments().size() != wanted) {
                field.map.problem(node, "'" + use.name() + "' takes " + (wanted == 0 ? "no value" : "one value") + " in brackets");
                return null;
            }
            Ast key = wanted == 0 ? null : use.arguments().get(0);
            Expr argument = key == null ? null : compiler.compileAst(site(field, "process", null), key);
            return wanted == 1 && argument == null ? null : new Process(kind, argument);
        } catch (SyntaxException e) {
            universe.problems.add(field.map.file(), node.getStartMark(), TypeNames.quote(node) + e.at(), "in the process: " + e.getMessage());
            return null;
        }
    }

    /** The bytes a field takes, or null where its type alone says so. */
    private Extent extent(FieldDraft field, DataType type) {
        YamlMap map = field.map;
        Integer pad = map.octet("pad-right");
        Expr size = expr(field, "size", Kind.INT, null);
        boolean eos = map.flag("size-eos", false);
        if (map.has("size") && eos) {
            map.problem(map.keyNode("size-eos"), "'size' and 'size-eos' exclude each other");
        }
        byte[] terminator = terminator(field, type);
        if (map.has("contents")) {
            byte[] contents = CheckBuilder.contents(field);
            size = contents == null ? null : new Constant(ValueType.INT, (long) contents.length);
        }
        if (type instanceof DataType.Number || type instanceof DataType.Bits) {
            for (String key : List.of("size", "size-eos", "terminator", "pad-right")) {
                if (map.has(key)) {
                    map.problem(map.keyNode(key), "'" + key + "' does not fit a number, whose type says its size");
                }
            }
            return null;
        }
        if (size == null && !eos && terminator == null) {
            return null;
        }
        return new Extent(size, eos, terminator, map.flag("include", false), map.flag("consume", true), map.flag("eos-error", true),
                pad == null ? -1 : pad);
    }

    private static byte[] terminator(FieldDraft field, DataType type) {
        YamlMap map = field.map;
        int unit = 1;
        if (type instanceof DataType.Text && encoding(field) != null) {
            unit = Charsets.of(encoding(field)).unit();
        }
        if (!map.has("terminator")) {
            return type instanceof DataType.Text text && text.zero() ? new byte[unit] : null;
        }
        if (map.get("terminator") instanceof org.yaml.snakeyaml.nodes.SequenceNode) {
            byte[] bytes = CheckBuilder.octets(field, "terminator");
            return bytes == null || bytes.length == 0 ? null : bytes;
        }
        Integer octet = map.octet("terminator");
        return octet == null ? null : new byte[] {octet.byteValue()};
    }
}
