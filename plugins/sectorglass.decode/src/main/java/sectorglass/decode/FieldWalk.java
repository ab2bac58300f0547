package sectorglass.decode;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/** Walks over a decoded tree, without recursion. */
public final class FieldWalk {

    private FieldWalk() {
    }

    /** The values of a tree, in order of decoding. */
    public static List<FieldNode> values(FieldNode root) {
        List<FieldNode> found = new ArrayList<>();
        Deque<FieldNode> open = new ArrayDeque<>();
        open.push(root);
        while (!open.isEmpty()) {
            FieldNode node = open.pop();
            if (node.kind() == FieldNode.Kind.VALUE) {
                found.add(node);
            }
            List<FieldNode> children = node.children();
            for (int i = children.size() - 1; i >= 0; i--) {
                open.push(children.get(i));
            }
        }
        return found;
    }

    /** The smallest value that holds the image byte, or null: of two that lie over each other the one decoded last. */
    public static FieldNode at(FieldNode root, long imageByte) {
        FieldNode best = null;
        for (FieldNode node : values(root)) {
            if (node.length() > 0 && imageByte >= node.firstByte() && imageByte < node.firstByte() + node.length()
                    && (best == null || node.length() <= best.length())) {
                best = node;
            }
        }
        return best;
    }

    /** The parts of a window that no value explains, by address. */
    public static List<ByteRange> unexplained(FieldNode root, Window window) {
        List<FieldNode> held = new ArrayList<>(values(root));
        held.removeIf(node -> node.length() == 0);
        held.sort(Comparator.comparingLong(FieldNode::firstByte));
        List<ByteRange> gaps = new ArrayList<>();
        long at = window.start();
        long end = window.range().end();
        for (FieldNode node : held) {
            if (node.firstByte() > at) {
                gaps.add(new ByteRange(at, Math.min(node.firstByte(), end) - at));
            }
            at = Math.max(at, node.firstByte() + node.length());
            if (at >= end) {
                return gaps;
            }
        }
        gaps.add(new ByteRange(at, end - at));
        return gaps;
    }
}
