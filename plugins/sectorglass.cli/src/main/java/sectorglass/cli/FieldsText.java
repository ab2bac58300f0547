package sectorglass.cli;

import java.io.PrintStream;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HexFormat;
import java.util.List;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;
import sectorglass.image.Window;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;

/** A decoded structure as text: one line per value, in address order, with the bytes nobody explains between them. */
final class FieldsText {
    private static final int SHOWN = 16;
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

    private final PrintStream out;
    private final int sectorSize;

    FieldsText(PrintStream out, int sectorSize) {
        this.out = out;
        this.sectorSize = sectorSize;
    }

    void print(Structure structure, long at, FieldNode root, Window window, Findings findings) {
        if (root == null) {
            out.println("LBA " + Numbers.grouped(at / sectorSize) + ": no structure known here explains it.");
            bytes(window);
            return;
        }
        out.println(structure.name() + " (format " + structure.format() + "), LBA " + Numbers.grouped(window.start() / sectorSize)
                + ", image byte " + Numbers.address(window.start()) + ", " + Numbers.grouped(window.length()) + " bytes");
        Table table = new Table("rlllll").row("byte", "bytes", "field", "value", "meaning", "");
        List<Finding> listed = findings.listed();
        Deque<ByteRange> gaps = new ArrayDeque<>(FieldWalk.unexplained(root, window));
        for (FieldNode node : FieldWalk.values(root)) {
            while (node.length() > 0 && !gaps.isEmpty() && gaps.peek().start() < node.firstByte()) {
                gap(table, window, gaps.poll());
            }
            row(table, node, window, listed);
        }
        gaps.forEach(gap -> gap(table, window, gap));
        table.print(out, "  ");
    }

    private void row(Table table, FieldNode node, Window window, List<Finding> findings) {
        String place = node.length() == 0 ? "" : node.offset() + (node.bits() < 0 ? "" : "." + node.bit());
        ByteRange range = new ByteRange(node.firstByte(), node.length());
        StringBuilder remark = new StringBuilder();
        if (node.state() != FieldNode.State.OK) {
            remark.append(node.state().word()).append(node.problem() == null ? "" : ": " + node.problem())
                    .append(node.expected() == null ? "" : ", expected " + node.expected());
        }
        for (Finding finding : findings) {
            if (node.length() > 0 && finding.where().overlaps(range)) {
                remark.append(remark.isEmpty() ? "" : "; ").append("finding ").append(finding.id()).append(' ').append(finding.check());
            }
        }
        // bytes whose value is their hex form stand in the bytes column already
        boolean again = node.raw() instanceof byte[] && node.meaning() == null && node.length() <= SHOWN
                && (node.unit() == null || node.unit().equals("hex"));
        table.row(place, hex(node, window), label(node), again ? "" : cut(SafeText.of(node.value())), cut(SafeText.of(node.meaning())),
                SafeText.of(remark.toString()));
    }

    private static String label(FieldNode node) {
        int last = node.path().lastIndexOf('.');
        String parents = last < 0 ? "" : node.path().substring(0, last + 1);
        return parents + node.label();
    }

    private static String cut(String text) {
        return text == null || text.codePointCount(0, text.length()) <= 72 ? text
                : text.substring(0, text.offsetByCodePoints(0, 71)) + "…";
    }

    private String hex(FieldNode node, Window window) {
        if (node.length() == 0) {
            return "";
        }
        if (node.bits() >= 0) {
            return node.bits() + " bit" + (node.bits() == 1 ? "" : "s");
        }
        long offset = node.offset();
        return offset < 0 || offset + node.length() > window.length() ? "" : hex(window, (int) offset, (int) node.length());
    }

    private static String hex(Window window, int offset, int length) {
        int shown = Math.min(length, SHOWN);
        if (!window.isRead(offset, shown)) {
            return window.state(offset).word();
        }
        return HEX.formatHex(window.raw(offset, shown)) + (length > shown ? " …" : "");
    }

    private static void gap(Table table, Window window, ByteRange gap) {
        if (gap.length() > 0) {
            int offset = (int) (gap.start() - window.start());
            table.row(offset, hex(window, offset, (int) gap.length()), "not explained", Numbers.grouped(gap.length()) + " bytes", "", "");
        }
    }

    private void bytes(Window window) {
        if (!window.isRead(0, window.length())) {
            out.println("  " + window.state(0).word() + ": its bytes are not known");
            return;
        }
        for (int at = 0; at < window.length(); at += SHOWN) {
            byte[] row = window.raw(at, Math.min(SHOWN, window.length() - at));
            StringBuilder text = new StringBuilder();
            for (byte b : row) {
                text.append(b >= 0x20 && b < 0x7F ? (char) b : '·');
            }
            out.printf("  %4d  %s  %s%n", at, HEX.formatHex(row), text);
        }
    }
}
