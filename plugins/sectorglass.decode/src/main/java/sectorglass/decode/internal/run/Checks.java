package sectorglass.decode.internal.run;

import java.util.List;
import java.util.function.Supplier;

import sectorglass.decode.internal.run.Trouble.Cause;
import sectorglass.decode.internal.text.EnumTable;
import sectorglass.decode.internal.text.Presentation;
import sectorglass.decode.internal.text.Texts;

/** The rules that {@code valid} and {@code contents} know. */
public final class Checks {
    private static final int MOST_VALUES = 12;

    private Checks() {
    }

    private interface Test {
        Trouble of(StructNode self, ValueNode value);
    }

    private static Check check(Test test, Supplier<String> expected, Expr example) {
        return new Check() {
            @Override
            public Object example() {
                return example != null && example.constant() ? example.eval(null) : null;
            }

            @Override
            public Trouble test(StructNode self, ValueNode value) {
                return test.of(self, value);
            }

            @Override
            public String expected() {
                return expected.get();
            }
        };
    }

    private static String text(Expr expr, Presentation presentation, ValueType type) {
        try {
            Object value = expr.constant() ? expr.eval(null) : null;
            if (value != null) {
                return presentation.value(value, type.unsigned64(), type.enumeration());
            }
        } catch (Undecided e) {
            // said in general words below
        }
        return Texts.of("expected.computed");
    }

    /** The value is equal to another one. */
    public static Check equal(Expr wanted, Presentation presentation, ValueType type) {
        Supplier<String> expected = () -> text(wanted, presentation, type);
        if (wanted.constant() && wanted.eval(null) instanceof byte[] bytes) {
            return check((self, value) -> value.sameBytes(bytes) ? null : new Trouble(Cause.NOT_EQUAL, expected.get()), expected, wanted);
        }
        boolean whole = wanted.type().is(ValueType.Kind.INT) || wanted.type().is(ValueType.Kind.ENUM);
        if (whole && (type.is(ValueType.Kind.INT) || type.is(ValueType.Kind.ENUM))) {
            return check((self, value) -> {
                long number = wanted.asLong(self);
                return value.longValue() == number ? null
                        : new Trouble(Cause.NOT_EQUAL, presentation.value(number, type.unsigned64(), type.enumeration()));
            }, expected, wanted);
        }
        return check((self, value) -> {
            Object other = wanted.eval(self);
            return Values.equal(value.expressionValue(), other) ? null
                    : new Trouble(Cause.NOT_EQUAL, presentation.value(other, type.unsigned64(), type.enumeration()));
        }, expected, wanted);
    }

    /** The value lies in a range; either end may be null. */
    public static Check range(Expr min, Expr max, Presentation presentation, ValueType type) {
        Supplier<String> from = () -> text(min, presentation, type);
        Supplier<String> to = () -> text(max, presentation, type);
        Supplier<String> expected = () -> min == null ? Texts.of("expected.most", to.get()) : max == null
                ? Texts.of("expected.least", from.get()) : Texts.of("expected.range", from.get(), to.get());
        return check((self, value) -> {
            Object actual = value.expressionValue();
            boolean noNumber = actual instanceof Double real && real.isNaN(); // lies in no range
            if (min != null && (noNumber || order(actual, min.eval(self), type) < 0)) {
                return new Trouble(Cause.LESS, from.get());
            }
            return max != null && order(actual, max.eval(self), type) > 0 ? new Trouble(Cause.GREATER, to.get()) : null;
        }, expected, min == null ? max : min);
    }

    private static int order(Object a, Object b, ValueType type) {
        return type.unsigned64() && a instanceof Long x && b instanceof Long y ? Long.compareUnsigned(x, y) : Values.compare(a, b);
    }

    /** The value is one of some. */
    public static Check anyOf(Expr[] wanted, Presentation presentation, ValueType type) {
        Supplier<String> expected = () -> {
            StringBuilder all = new StringBuilder();
            for (int i = 0; i < wanted.length && i < MOST_VALUES; i++) {
                all.append(i == 0 ? "" : ", ").append(text(wanted[i], presentation, type));
            }
            return all.append(wanted.length > MOST_VALUES ? " …" : "").toString();
        };
        return check((self, value) -> {
            Object actual = value.expressionValue();
            for (Expr one : wanted) {
                if (Values.equal(actual, one.eval(self))) {
                    return null;
                }
            }
            return new Trouble(Cause.NOT_ANY_OF, expected.get());
        }, expected, wanted.length == 0 ? null : wanted[0]);
    }

    /** A condition holds for the value. */
    public static Check holds(Expr condition, String text) {
        return check((self, value) -> condition.asBool(self) ? null : new Trouble(Cause.NOT_EXPR, text), () -> text, null);
    }

    /** The value is a member of its enumeration. */
    public static Check inEnum(EnumTable table) {
        return check((self, value) -> table.find(value.longValue()) != null ? null : new Trouble(Cause.NOT_IN_ENUM, table.name()),
                () -> Texts.of("expected.member", table.name()), null);
    }

    /** All of some rules. */
    public static Check all(List<Check> rules) {
        return check((self, value) -> {
            for (Check rule : rules) {
                Trouble found = rule.test(self, value);
                if (found != null) {
                    return found;
                }
            }
            return null;
        }, () -> String.join("; ", rules.stream().map(Check::expected).toList()), null);
    }
}
