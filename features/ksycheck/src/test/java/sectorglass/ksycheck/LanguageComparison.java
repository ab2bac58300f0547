package sectorglass.ksycheck;

import java.nio.BufferUnderflowException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import io.kaitai.struct.KaitaiStream;
import io.kaitai.struct.KaitaiStruct;
import sectorglass.decode.FieldNode;
import sectorglass.decode.internal.run.ArrayNode;
import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.Node;
import sectorglass.decode.internal.run.NodeValues;
import sectorglass.decode.internal.run.StructNode;
import sectorglass.decode.internal.run.Trouble;

/** Holds a decoded tree against an object of the generated code: every field and instance, what is absent, and what was thrown. */
final class LanguageComparison {
    private static final int MOST = 6;

    private final List<String> differences = new ArrayList<>();
    private int compared;

    List<String> differences() {
        return differences;
    }

    int compared() {
        return compared;
    }

    private void differ(String path, String what) {
        if (differences.size() < MOST) {
            differences.add(path + ": " + what);
        }
    }

    /** Compares a root with an object that was asked to read. */
    void root(StructNode root, GeneratedObject object, Throwable stopped) throws ReflectiveOperationException {
        if (stopped != null && !(stopped instanceof NullPointerException)) { // that: a field that does not exist, here not decided
            Trouble first = firstMarked(root);
            compared++;
            if (first == null) {
                differ("", "nothing is marked, but the generated code stopped: " + stopped);
            } else if (!kind(first).contains(kind(stopped))) {
                differ("", "marked first: " + first.cause() + ", but the generated code stopped: " + stopped);
            }
        }
        struct(root, object, stopped == null);
    }

    private void struct(StructNode node, GeneratedObject object, boolean complete) throws ReflectiveOperationException {
        Map<String, FieldNode> children = new HashMap<>();
        node.children().forEach(child -> children.put(child.id(), child));
        for (FieldSpec field : node.type().seq()) {
            boolean came = object.start(field.id()) != null;
            boolean ended = object.end(field.id()) != null;
            FieldNode child = children.get(field.id());
            String path = node.path() + "." + field.id();
            if (!came) {
                if (complete && child != null) {
                    differ(path, "is here, but not in the generated code");
                }
                if (!complete && child != null) {
                    return;
                }
                continue;
            }
            Object value;
            try {
                value = object.get(field.id());
            } catch (Throwable e) {
                differ(path, "the getter threw " + e);
                return;
            }
            value(path, child, field, value, ended);
            if (!ended) {
                return;
            }
        }
        if (complete) {
            for (FieldSpec field : node.type().instances()) {
                instance(node.path() + "." + field.id(), object, field, children.get(field.id()));
            }
        }
    }

    private void instance(String path, GeneratedObject object, FieldSpec field, FieldNode child) throws ReflectiveOperationException {
        Object value;
        try {
            value = object.get(field.id());
        } catch (NoSuchMethodException e) {
            throw e;
        } catch (Throwable e) {
            compared++;
            Trouble found = child == null ? null : firstMarked(child);
            if (found == null && e instanceof NullPointerException) {
                return; // an unassigned member of an enumeration is lost there
            }
            if (found == null) {
                differ(path, "is " + text(child) + ", but the generated code threw " + e);
            } else if (!kind(found).contains(kind(e))) {
                differ(path, "marked: " + found.cause() + ", but the generated code threw " + e);
            }
            return;
        }
        value(path, child, field, value, true);
    }

    private void value(String path, FieldNode child, FieldSpec field, Object value, boolean complete) throws ReflectiveOperationException {
        if (child == null) {
            if (value != null) {
                differ(path, "is not here, but the generated code has " + text(value));
            }
            return;
        }
        compared++;
        if (child instanceof ArrayNode && value instanceof List<?> list) {
            List<FieldNode> items = child.children();
            if (complete && child.state() == FieldNode.State.OK && items.size() != list.size()) {
                differ(path, items.size() + " elements, but the generated code has " + list.size());
            }
            for (int i = 0; i < Math.min(items.size(), list.size()); i++) {
                value(path + "[" + i + "]", items.get(i), field, list.get(i), complete || i + 1 < list.size());
            }
            return;
        }
        if (child instanceof StructNode struct) {
            if (value instanceof KaitaiStruct generated) {
                struct(struct, new GeneratedObject(generated), complete);
            } else if (complete) {
                differ(path, "is a structure, but the generated code has " + text(value));
            }
            return;
        }
        if (!complete) {
            return;
        }
        Object raw = made(child);
        if (value == null) {
            boolean member = ((Node) child).spec().type().enumeration() != null;
            if (raw != null && !member) {
                differ(path, "is " + text(raw) + ", but the generated code has nothing");
            }
        } else if (raw == null) {
            differ(path, "has no value (" + child.problem() + "), but the generated code has " + text(value));
        } else if (!equal(raw, value)) {
            differ(path, text(raw) + ", but the generated code has " + text(value));
        } else if (((Node) child).trouble() != null && !((Node) child).trouble().violation()) {
            differ(path, "is marked " + ((Node) child).trouble().cause() + ", but the generated code has " + text(value));
        }
    }

    private static Object made(FieldNode child) {
        return NodeValues.of(child);
    }

    private boolean equal(Object ours, Object theirs) throws ReflectiveOperationException {
        if (theirs instanceof Enum<?> member) {
            return ours instanceof Long number && (long) member.getClass().getMethod("id").invoke(member) == number;
        }
        if (theirs instanceof KaitaiStruct generated) {
            if (ours instanceof StructNode node) {
                return generated.getClass().getSimpleName().equalsIgnoreCase(node.type().name().replace("_", ""));
            }
            return ours.getClass().getSimpleName().equals("StructNode");
        }
        if (theirs instanceof KaitaiStream) {
            return ours.getClass().getSimpleName().equals("WindowStream");
        }
        if (theirs instanceof List<?> list) {
            if (ours instanceof byte[] bytes) {
                if (bytes.length != list.size()) {
                    return false;
                }
                for (int i = 0; i < bytes.length; i++) {
                    if (!(list.get(i) instanceof Number n) || n.longValue() != (bytes[i] & 0xFF)) {
                        return false;
                    }
                }
                return true;
            }
            List<Object> mine = new ArrayList<>();
            if (ours instanceof ArrayNode array) {
                array.children().forEach(item -> mine.add(item instanceof StructNode ? item : made(item)));
            } else if (ours instanceof Object[] items) {
                mine.addAll(Arrays.asList(items));
            } else {
                return false;
            }
            if (mine.size() != list.size()) {
                return false;
            }
            for (int i = 0; i < mine.size(); i++) {
                if (!equal(mine.get(i), list.get(i))) {
                    return false;
                }
            }
            return true;
        }
        if (ours instanceof Long number) {
            return theirs instanceof Number other && !(theirs instanceof Double) && !(theirs instanceof Float) && other.longValue() == number;
        }
        if (ours instanceof Double real) {
            return (theirs instanceof Double || theirs instanceof Float) && Double.compare(((Number) theirs).doubleValue(), real) == 0;
        }
        if (ours instanceof byte[] bytes) {
            return theirs instanceof byte[] other && Arrays.equals(bytes, other);
        }
        return ours.equals(theirs);
    }

    /** The first mark in the order of reading: fields, then the array or structure around them, then instances. */
    private static Trouble firstMarked(FieldNode node) {
        for (FieldNode child : node.children()) {
            if (((Node) child).spec().place() != FieldSpec.Place.INSTANCE) {
                Trouble found = firstMarked(child);
                if (found != null) {
                    return found;
                }
            }
        }
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

    /** The kinds of exception that a mark may stand for. */
    private static List<String> kind(Trouble trouble) {
        return switch (trouble.cause()) {
            case END, NO_TERMINATOR, FEWER, OUTSIDE, NEEDS_CUT -> List.of("end");
            case NOT_EQUAL -> List.of("not equal");
            case LESS -> List.of("less");
            case GREATER -> List.of("greater");
            case NOT_ANY_OF -> List.of("any of");
            case NOT_IN_ENUM -> List.of("enum");
            case NOT_EXPR -> List.of("expr");
            case ENDIAN -> List.of("endian");
            case CONVERSION -> List.of("conversion");
            case DIVISION -> List.of("division");
            case INDEX -> List.of("index");
            case NEGATIVE -> List.of("negative", "end");
            case TYPE -> List.of("type");
            case NEEDS_ABSENT -> List.of("absent");
            case PROCESS -> List.of("process");
            default -> List.of(trouble.cause().name());
        };
    }

    private static String kind(Throwable e) {
        boolean beyond = e instanceof IllegalArgumentException && String.valueOf(e.getMessage()).matches("new(Limit|Position) > .*|Java (byte arrays|ByteBuffer) .*");
        if (beyond || e instanceof BufferUnderflowException || e instanceof java.io.EOFException) {
            return "end";
        }
        if (e instanceof KaitaiStream.ValidationNotEqualError) {
            return "not equal";
        }
        if (e instanceof KaitaiStream.ValidationLessThanError) {
            return "less";
        }
        if (e instanceof KaitaiStream.ValidationGreaterThanError) {
            return "greater";
        }
        if (e instanceof KaitaiStream.ValidationNotAnyOfError) {
            return "any of";
        }
        if (e instanceof KaitaiStream.ValidationNotInEnumError) {
            return "enum";
        }
        if (e instanceof KaitaiStream.ValidationExprError) {
            return "expr";
        }
        if (e instanceof KaitaiStream.UndecidedEndiannessError) {
            return "endian";
        }
        if (e instanceof NumberFormatException) {
            return "conversion";
        }
        if (e instanceof ArithmeticException) {
            return "division";
        }
        if (e instanceof IndexOutOfBoundsException || e instanceof java.util.NoSuchElementException) {
            return "index";
        }
        if (e instanceof NegativeArraySizeException || e instanceof IllegalArgumentException) {
            return "negative";
        }
        if (e instanceof NullPointerException) {
            return "absent";
        }
        if (e instanceof ClassCastException) {
            return "type";
        }
        String message = String.valueOf(e.getMessage());
        return message.startsWith("End of stream reached") ? "end" : e.getClass().getName().startsWith("java.util.zip") || e.getCause()
                instanceof java.util.zip.DataFormatException ? "process" : e.toString();
    }

    private static String text(Object value) {
        if (value instanceof byte[] bytes) {
            return java.util.HexFormat.of().formatHex(bytes);
        }
        return value == null ? "nothing" : value + " (" + value.getClass().getSimpleName() + ")";
    }
}
