package sectorglass.report;

import java.math.BigInteger;
import java.util.HexFormat;
import java.util.List;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;

/** A decoded structure as JSON. */
public final class FieldsJson {
    private static final int HEX_LIMIT = 4096;

    private FieldsJson() {
    }

    /**
     * Writes one object: the format, and every value with its bytes.
     *
     * @param format id, or null where nothing explains the place
     * @param root the tree, or null
     * @param window the bytes that were decoded
     */
    public static void write(JsonOut out, String format, long at, FieldNode root, Window window, Findings findings) {
        List<Finding> listed = findings.listed();
        out.object(() -> {
            out.field("format", format).field("lba", at / window.sectorSize()).field("firstByte", root == null ? at : window.start());
            out.array("fields", root == null ? List.of() : FieldWalk.values(root), n -> field(out, (FieldNode) n, window, listed));
            List<ByteRange> gaps = root == null ? List.of(window.range()) : FieldWalk.unexplained(root, window);
            out.array("unexplained", gaps, g -> out.list(((ByteRange) g).start(), ((ByteRange) g).length()));
        }).line();
    }

    private static void field(JsonOut out, FieldNode node, Window window, List<Finding> findings) {
        out.object(() -> {
            out.field("path", node.path()).field("label", node.label()).field("firstByte", node.firstByte())
                    .field("bit", node.bits() < 0 ? null : node.bit()).field("bits", node.bits() < 0 ? null : node.bits())
                    .field("bitOrder", node.bits() < 0 ? null : node.bitsFromLeast() ? "least first" : "most first")
                    .field("length", node.length()).field("hex", hex(node, window)).field("raw", raw(node))
                    .field("value", node.value()).field("meaning", node.meaning()).field("state", node.state().word())
                    .field("expected", node.expected()).field("problem", node.problem());
            out.array("findings", node.length() == 0 ? List.of() : on(findings, node), out::value);
        });
    }

    private static List<Integer> on(List<Finding> findings, FieldNode node) {
        ByteRange range = new ByteRange(node.firstByte(), node.length());
        return findings.stream().filter(f -> f.where().overlaps(range)).map(Finding::id).toList();
    }

    private static String hex(FieldNode node, Window window) {
        long offset = node.offset();
        if (node.length() == 0 || offset < 0 || offset + node.length() > window.length()
                || !window.isRead((int) offset, (int) node.length())) {
            return null;
        }
        int shown = (int) Math.min(node.length(), HEX_LIMIT);
        return HexFormat.of().formatHex(window.raw((int) offset, shown));
    }

    private static Object raw(FieldNode node) {
        Object raw = node.raw();
        if (raw instanceof byte[] bytes) {
            return HexFormat.of().formatHex(bytes, 0, Math.min(bytes.length, HEX_LIMIT));
        }
        if (raw instanceof Long number && number < 0 && node.unsigned64()) {
            return new BigInteger(Long.toUnsignedString(number));
        }
        return raw;
    }
}
