package sectorglass.decode.internal.load;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

import org.yaml.snakeyaml.DumperOptions.ScalarStyle;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.Tag;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.SpecException;
import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.Node;
import sectorglass.decode.internal.run.StructNode;
import sectorglass.decode.internal.run.Trouble;
import sectorglass.decode.internal.run.Undecided;
import sectorglass.decode.internal.run.ValueType;
import sectorglass.decode.internal.run.Values;
import sectorglass.image.Window;

/** Runs one expectation of the language's own test suite: a spec, bytes, and the values or the error that the language demands. */
final class LanguageSuite {
    private final Path folder;

    LanguageSuite(Path folder) {
        this.folder = folder;
    }

    /** Specs are looked for in the folder, absolute imports also in its {@code ks_path}. */
    SpecSource specs() {
        Path formats = folder.resolve("formats");
        return path -> {
            for (Path base : List.of(formats, formats.resolve("ks_path"))) {
                if (Files.isRegularFile(base.resolve(path))) {
                    return Files.readString(base.resolve(path));
                }
            }
            return null;
        };
    }

    /** Decodes a file by a spec of the suite. */
    static StructNode decode(Spec spec, byte[] bytes) {
        return (StructNode) Decoder.decode(spec, Window.ofRead(bytes, 0, 512), DecodeOptions.DEFAULT);
    }

    /** Null where the expectation holds, else what differs. */
    String run(Path expectation) throws IOException {
        Map<?, ?> kst = new Yaml(new SafeConstructor(new LoaderOptions())).load(Files.readString(expectation, StandardCharsets.UTF_8));
        Spec spec;
        try {
            spec = SpecLoader.load(specs(), kst.get("id") + ".ksy");
        } catch (SpecException e) {
            return "refused: " + e.getMessage();
        }
        StructNode root = decode(spec, Files.readAllBytes(folder.resolve("src").resolve((String) kst.get("data"))));
        if (kst.get("exception") != null) {
            Object exception = kst.get("exception");
            String wanted = String.valueOf(exception instanceof Map<?, ?> map ? map.get("type") : exception);
            return exception(wanted, firstMarked(root));
        }
        if (kst.get("asserts") instanceof List<?> asserts) {
            for (Object each : asserts) {
                String difference = check(spec, root, (Map<?, ?>) each);
                if (difference != null) {
                    return difference;
                }
            }
            return null;
        }
        // no values are demanded: the bytes must be read without trouble
        Trouble marked = firstMarked(root);
        return marked == null || marked.cause() == Trouble.Cause.ENCODING ? null : "marked: " + marked.sentence();
    }

    private static Trouble firstMarked(FieldNode node) {
        if (((Node) node).trouble() != null) {
            return ((Node) node).trouble();
        }
        for (FieldNode child : node.children()) {
            Trouble found = firstMarked(child);
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    private static String exception(String wanted, Trouble marked) {
        if (marked == null) {
            return "nothing is marked, but wanted " + wanted;
        }
        String name = switch (marked.cause()) {
            case END, NO_TERMINATOR, FEWER, OUTSIDE -> "EndOfStreamError";
            case NOT_EQUAL -> "ValidationNotEqualError";
            case LESS -> "ValidationLessThanError";
            case GREATER -> "ValidationGreaterThanError";
            case NOT_ANY_OF -> "ValidationNotAnyOfError";
            case NOT_IN_ENUM -> "ValidationNotInEnumError";
            case NOT_EXPR -> "ValidationExprError";
            case ENDIAN -> "UndecidedEndiannessError";
            case CONVERSION -> "ConversionError";
            default -> marked.cause().name();
        };
        return wanted.replaceFirst("<.*", "").equals(name) ? null : "marked as " + name + ", but wanted " + wanted;
    }

    private static Expr compile(Spec spec, String text) {
        ScalarNode node = new ScalarNode(Tag.STR, text, null, null, ScalarStyle.PLAIN) {
            @Override
            public org.yaml.snakeyaml.error.Mark getStartMark() {
                return new org.yaml.snakeyaml.error.Mark("", 0, 0, 0, new int[0], 0);
            }

            @Override
            public org.yaml.snakeyaml.error.Mark getEndMark() {
                return getStartMark();
            }
        };
        Universe universe = spec.universe();
        Expr expr = new Linker(universe).compiler().compile(new Site(spec.type(), "expectation", node, null), null);
        if (expr == null) {
            throw new IllegalStateException(universe.problems.list().toString());
        }
        return expr;
    }

    private static String check(Spec spec, StructNode root, Map<?, ?> one) {
        String actual = String.valueOf(one.get("actual"));
        String expected = String.valueOf(one.get("expected"));
        Expr expr = compile(spec, actual);
        Object value;
        try {
            value = expr.eval(root);
        } catch (Undecided e) {
            Object exception = one.get("exception");
            if (exception != null) {
                // the instance itself carries the cause, what asks for it only depends on it
                Trouble own = ((Node) root.children().stream().filter(n -> n.id().equals(actual)).findFirst().orElseThrow()).trouble();
                return exception(String.valueOf(exception), own == null ? e.trouble() : own);
            }
            return expected.equals("null") && e.trouble().cause() == Trouble.Cause.NEEDS_ABSENT ? null
                    : actual + ": " + e.getMessage() + ", but wanted " + expected;
        }
        if (one.get("exception") != null || expected.equals("null")) {
            return actual + " is " + text(value) + ", but wanted " + expected + one.get("exception");
        }
        Object wanted = compile(spec, expected).eval(root);
        boolean close = value instanceof Double a && wanted instanceof Number b && Math.abs(a - b.doubleValue()) <= 1e-6 * Math.max(1, Math.abs(a));
        boolean kinds = expr.type().is(ValueType.Kind.ANY) || value.getClass() == wanted.getClass() || Values.isArray(value);
        return close || kinds && Values.equal(value, wanted) ? null : actual + " is " + text(value) + ", but wanted " + text(wanted);
    }

    private static String text(Object value) {
        return value instanceof byte[] bytes ? java.util.HexFormat.of().formatHex(bytes) : String.valueOf(value);
    }
}
