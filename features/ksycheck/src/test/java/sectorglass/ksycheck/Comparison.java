package sectorglass.ksycheck;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import io.kaitai.struct.KaitaiStruct;
import sectorglass.decode.FieldNode;
import sectorglass.decode.internal.run.ArrayNode;
import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.StructNode;

/** Compares a decoded tree with an object of the generated code, as far as that came. */
final class Comparison {
    private static final int MOST = 8;

    private final List<String> differences = new ArrayList<>();
    private int compared;

    /** Values and positions that were compared. */
    int compared() {
        return compared;
    }

    /** What differs; at most a few. */
    List<String> differences() {
        return differences;
    }

    private void differ(FieldNode node, String id, String what) {
        if (differences.size() < MOST) {
            differences.add(node.path() + "." + id + ": " + what);
        }
    }

    /**
     * Compares a structure.
     *
     * @param base offset of the object's stream in the window
     * @param complete whether the generated code read all of the object
     */
    void struct(StructNode node, GeneratedObject object, long base, boolean complete) throws ReflectiveOperationException {
        Map<String, FieldNode> children = new HashMap<>();
        node.children().forEach(child -> children.put(child.id(), child));
        for (FieldSpec field : node.type().seq()) {
            Integer start = object.start(field.id());
            Integer end = object.end(field.id());
            FieldNode child = children.get(field.id());
            if (start == null) {
                if (complete && child != null) {
                    differ(node, field.id(), "is here, but not in the generated code");
                }
                if (!complete && child == null) {
                    continue; // left out by a condition
                }
                if (!complete) {
                    return; // the generated code did not come here
                }
                continue;
            }
            Object value;
            try {
                value = object.get(field.id());
            } catch (Throwable e) {
                differ(node, field.id(), "the getter threw " + e);
                return;
            }
            if (child == null) {
                if (value != null) {
                    differ(node, field.id(), "is not here, but the generated code has " + value);
                }
                continue;
            }
            member(node, object, child, field, value, base, end != null);
            if (end == null) {
                return;
            }
            boolean bits = child.bits() >= 0 || child.kind() == FieldNode.Kind.ARRAY && !child.children().isEmpty() && child.children().get(0)
                    .bits() >= 0;
            if (!bits) {
                same(node, field.id() + " start", child.offset(), base + start);
                if (child.state() == FieldNode.State.OK) {
                    same(node, field.id() + " end", child.offset() + child.length(), base + end);
                }
            }
        }
        if (complete) {
            for (FieldSpec field : node.type().instances()) {
                instance(node, object, field, children.get(field.id()), base);
            }
        }
    }

    private void instance(StructNode node, GeneratedObject object, FieldSpec field, FieldNode child, long base)
            throws ReflectiveOperationException {
        Object value;
        try {
            value = object.get(field.id());
        } catch (NoSuchMethodException e) {
            throw e;
        } catch (Throwable e) {
            return; // the generated code stopped inside
        }
        if (child == null) {
            if (value != null) {
                differ(node, field.id(), "is not here, but the generated code has " + value);
            }
            return;
        }
        if (value != null) {
            member(node, object, child, field, value, base, true);
        } else if (child.raw() != null && field.type().enumeration() == null) {
            differ(node, field.id(), "is " + child.raw() + ", but the generated code has nothing");
        }
        Integer start = object.start(field.id());
        if (start != null && child.bits() < 0 && child.state() == FieldNode.State.OK && child.kind() != FieldNode.Kind.ARRAY) {
            same(node, field.id() + " start", child.offset(), base + start);
        }
    }

    private void same(FieldNode node, String what, long ours, long theirs) {
        compared++;
        if (ours != theirs) {
            differ(node, what, ours + ", but the generated code has " + theirs);
        }
    }

    private void member(StructNode node, GeneratedObject object, FieldNode child, FieldSpec field, Object value, long base, boolean complete)
            throws ReflectiveOperationException {
        if (child instanceof ArrayNode && value instanceof List<?> list) {
            List<FieldNode> items = child.children();
            if (complete && child.state() == FieldNode.State.OK && items.size() != list.size()) {
                differ(node, field.id(), items.size() + " elements, but the generated code has " + list.size());
            }
            List<?> starts = object.positions(field.id(), false);
            for (int i = 0; i < Math.min(items.size(), list.size()); i++) {
                long start = i < starts.size() ? ((Number) starts.get(i)).longValue() : -1;
                FieldNode item = items.get(i);
                if (start >= 0 && item.bits() < 0) {
                    same(item, "start", item.offset(), base + start);
                }
                value(node, object, item, field, list.get(i), base, start, true);
            }
            return;
        }
        Integer start = object.start(field.id());
        value(node, object, child, field, value, base, start == null ? -1 : start, complete);
    }

    private void value(StructNode node, GeneratedObject object, FieldNode child, FieldSpec field, Object value, long base, long start,
            boolean complete) throws ReflectiveOperationException {
        if (child instanceof StructNode struct) {
            if (value instanceof KaitaiStruct generated) {
                GeneratedObject inner = new GeneratedObject(generated);
                boolean own = inner.io() != object.io();
                struct(struct, inner, own ? base + Math.max(0, start) : base, complete);
            } else if (complete) {
                differ(node, field.id(), "is a structure, but the generated code has " + value);
            }
            return;
        }
        if (!complete && child.state() != FieldNode.State.OK) {
            return;
        }
        Object raw = child.raw();
        if (value == null || raw == null) {
            return; // an unassigned member of an enumeration is lost there; a structure behind a value instance has no raw value here
        }
        compared++;
        if (!equal(raw, value, child.computed())) {
            differ(child, "value", text(raw) + ", but the generated code has " + text(value));
        }
    }

    private static boolean equal(Object ours, Object theirs, boolean computed) {
        if (theirs instanceof Enum<?> member) {
            try {
                return ours instanceof Long number && (long) member.getClass().getMethod("id").invoke(member) == number;
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException(e);
            }
        }
        if (ours instanceof Long number) {
            // division rounds down in the language (User Guide, 6.3.1), but to zero in generated Java
            return theirs instanceof Number other && (other.longValue() == number || computed && number < 0 && other.longValue() == number + 1);
        }
        if (ours instanceof Double real) {
            return theirs instanceof Number other && Double.compare(other.doubleValue(), real) == 0;
        }
        if (ours instanceof byte[] bytes) {
            return theirs instanceof byte[] other ? Arrays.equals(bytes, other) : theirs instanceof List<?>;
        }
        return ours.equals(theirs);
    }

    private static String text(Object value) {
        return value instanceof byte[] bytes ? java.util.HexFormat.of().formatHex(bytes) : String.valueOf(value);
    }
}
