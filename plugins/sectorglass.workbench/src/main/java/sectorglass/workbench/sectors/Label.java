package sectorglass.workbench.sectors;

import sectorglass.decode.FieldNode;
import sectorglass.image.SafeText;
import sectorglass.verify.Verdict;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Span;

/**
 * What stands under a bracket.
 *
 * @param name the field's name
 * @param value its value or meaning, or an empty text
 * @param wrong what the rule asks for where a check failed, or an empty text
 */
record Label(String name, String value, String wrong) {
    private static final int LONGEST = 48;

    /** What stands under the bracket of a field that is covered. */
    static final Label COVERED = new Label("?", "", "");

    /** @param judged whether it is told what a rule of the format asks for instead of what is stored */
    static Label of(Span span, boolean judged) {
        FieldNode node = span.node();
        String name = shorten(SafeText.of(name(node)));
        String value = "";
        if (node.state() == FieldNode.State.UNREAD) {
            value = Texts.of("gloss.unread");
        } else if (node.raw() instanceof byte[] bytes && bytes.length > 16) {
            value = "";
        } else {
            // of a pointer the number matters, of a code its meaning
            String text = node.meaning() != null && node.link() == null ? node.meaning() : node.value();
            value = text == null ? "" : shorten(SafeText.of(text));
        }
        String wrong = "";
        if (span.finding() != null && span.finding().verdict() == Verdict.FAILED) {
            String asked = span.finding().computed();
            wrong = asked == null ? Texts.of("gloss.wrong") : Texts.of("gloss.computed", shorten(SafeText.of(asked)));
        } else if (judged && node.state() == FieldNode.State.VIOLATED) {
            wrong = node.expected() == null ? Texts.of("gloss.wrong") : Texts.of("gloss.computed", shorten(SafeText.of(node.expected())));
        }
        return new Label(name, value, wrong);
    }

    /** An element of an array is called after the array. */
    private static String name(FieldNode node) {
        FieldNode parent = node.parent();
        if (parent == null || parent.parent() == null) {
            return node.label();
        }
        if (parent.kind() == FieldNode.Kind.ARRAY && node.label().equals(node.id())) {
            return parent.label() + " " + node.id();
        }
        // where an element of an array begins, its number stands
        FieldNode array = parent.parent();
        boolean begins = array.kind() == FieldNode.Kind.ARRAY && parent.children().get(0) == node;
        return begins ? "[" + array.children().indexOf(parent) + "] " + node.label() : node.label();
    }

    private static String shorten(String text) {
        return text.length() <= LONGEST ? text : text.substring(0, LONGEST - 1) + "\u2026";
    }
}
