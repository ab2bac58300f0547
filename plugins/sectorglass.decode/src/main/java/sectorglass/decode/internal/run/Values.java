package sectorglass.decode.internal.run;

import java.util.Arrays;

import sectorglass.decode.internal.run.Trouble.Cause;

/** Comparison of values as the language means it. */
public final class Values {

    private Values() {
    }

    /** Whether two values are equal; numbers by value, bytes and arrays by content, structures by identity. */
    public static boolean equal(Object a, Object b) {
        if (a instanceof Long x && b instanceof Long y) {
            return x.longValue() == y.longValue();
        }
        if (a instanceof Number x && b instanceof Number y) {
            return x.doubleValue() == y.doubleValue();
        }
        if (a instanceof Boolean x && b instanceof Long y) {
            return (x ? 1 : 0) == y;
        }
        if (a instanceof Long && b instanceof Boolean) {
            return equal(b, a);
        }
        if (a instanceof byte[] x && b instanceof byte[] y) {
            return Arrays.equals(x, y);
        }
        if (isArray(a) && isArray(b)) {
            int size = size(a);
            if (size != size(b)) {
                return false;
            }
            for (int i = 0; i < size; i++) {
                if (!equal(element(a, i), element(b, i))) {
                    return false;
                }
            }
            return true;
        }
        return a == null ? b == null : a.equals(b);
    }

    /** Order of two numbers, texts or byte arrays (bytes as unsigned). */
    public static int compare(Object a, Object b) {
        if (a instanceof Long x && b instanceof Long y) {
            return Long.compare(x, y);
        }
        if (a instanceof Number x && b instanceof Number y) {
            return Double.compare(x.doubleValue(), y.doubleValue());
        }
        if (a instanceof String x && b instanceof String y) {
            return x.compareTo(y);
        }
        if (a instanceof byte[] x && b instanceof byte[] y) {
            return Arrays.compareUnsigned(x, y);
        }
        if (a instanceof Boolean x && b instanceof Boolean y) {
            return Boolean.compare(x, y);
        }
        throw Undecided.of(Cause.TYPE, Expr.nameOf(a), Expr.nameOf(b));
    }

    /** Whether a value has elements: an array, also one made by an expression, or bytes. */
    public static boolean isArray(Object value) {
        return value instanceof ArrayNode || value instanceof Object[] || value instanceof byte[];
    }

    /** Number of elements. */
    public static int size(Object array) {
        if (array instanceof ArrayNode node) {
            return node.size();
        }
        if (array instanceof byte[] bytes) {
            return bytes.length;
        }
        if (array instanceof Object[] items) {
            return items.length;
        }
        throw Undecided.of(Cause.TYPE, "an array", Expr.nameOf(array));
    }

    /** An element. */
    public static Object element(Object array, long index) {
        int size = size(array);
        if (index < 0 || index >= size) {
            throw Undecided.of(Cause.INDEX, String.valueOf(index), String.valueOf(size));
        }
        int i = (int) index;
        if (array instanceof ArrayNode node) {
            return node.get(i).expressionValue();
        }
        return array instanceof byte[] bytes ? (Object) (long) (bytes[i] & 0xFF) : ((Object[]) array)[i];
    }

    /** Bytes of a value: bytes, or whole numbers 0 to 255. */
    public static byte[] bytes(Object value) {
        if (value instanceof byte[] bytes) {
            return bytes;
        }
        byte[] bytes = new byte[size(value)];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) Expr.toLong(element(value, i));
        }
        return bytes;
    }
}
