package sectorglass.ksycheck;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.decode.Format;
import sectorglass.decode.internal.run.Node;
import sectorglass.image.Window;

/** Makes bytes that a spec accepts: puts what {@code contents} and {@code valid} ask for where it is asked for. */
final class Repair {
    private static final int PASSES = 40;

    private Repair() {
    }

    static byte[] of(Format format, byte[] bytes, DecodeOptions options) {
        byte[] best = bytes.clone();
        for (int pass = 0; pass < PASSES; pass++) {
            FieldNode broken = firstViolated(format, best, options);
            if (broken == null) {
                return best;
            }
            Object example = ((Node) broken).spec().check().example();
            byte[] next = put(best, broken, example, ByteOrder.LITTLE_ENDIAN);
            FieldNode still = next == null ? null : firstViolated(format, next, options);
            if (still != null && still.path().equals(broken.path())) {
                next = put(best, broken, example, ByteOrder.BIG_ENDIAN);
            }
            if (next == null) {
                return best;
            }
            best = next;
        }
        return best;
    }

    private static FieldNode firstViolated(Format format, byte[] bytes, DecodeOptions options) {
        FieldNode root = Decoder.decode(format, Window.ofRead(bytes, 0, 512), options);
        return FieldWalk.values(root).stream().filter(n -> n.state() == FieldNode.State.VIOLATED && n.length() > 0 && n.bits() < 0
                && ((Node) n).spec().check() != null && ((Node) n).spec().check().example() != null).findFirst().orElse(null);
    }

    private static byte[] put(byte[] bytes, FieldNode node, Object example, ByteOrder order) {
        byte[] copy = bytes.clone();
        int at = (int) node.offset();
        int length = (int) node.length();
        if (example instanceof byte[] wanted && wanted.length <= length) {
            System.arraycopy(wanted, 0, copy, at, wanted.length);
        } else if (example instanceof String text && text.length() <= length) {
            for (int i = 0; i < text.length(); i++) {
                copy[at + i] = (byte) text.charAt(i);
            }
        } else if (example instanceof Long number && length <= 8) {
            byte[] all = ByteBuffer.allocate(8).order(order).putLong(number).array();
            System.arraycopy(all, order == ByteOrder.LITTLE_ENDIAN ? 0 : 8 - length, copy, at, length);
        } else {
            return null;
        }
        return copy;
    }
}
