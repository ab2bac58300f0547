package sectorglass.workbench.parts;

import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;

import org.eclipse.jface.viewers.ColumnLabelProvider;
import org.eclipse.swt.graphics.Color;
import org.eclipse.swt.graphics.Image;

import sectorglass.decode.FieldNode;
import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.SignImages;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.model.Cover;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.OpenDisk;

/** Texts of one column of the fields. */
final class FieldLabels extends ColumnLabelProvider {

    /** The columns. */
    enum Column { NAME, VALUE, MEANING }

    private final Column column;
    private final Supplier<OpenDisk> open;
    private final Cover cover;
    private final BooleanSupplier judged;
    private final SignImages images = new SignImages();

    FieldLabels(Column column, Desk desk) {
        this.column = column;
        this.open = desk::open;
        this.cover = desk.cover();
        this.judged = () -> !desk.exam().runs();
    }

    @Override
    public String getText(Object element) {
        if (element instanceof Gaps || element instanceof Gaps.Gap) {
            return gap(element);
        }
        FieldNode node = (FieldNode) element;
        if (cover.hides(node)) {
            return column == Column.NAME ? "?" : "";
        }
        return switch (column) {
            case NAME -> SafeText.of(node.label());
            case VALUE -> node.state() == FieldNode.State.UNREAD ? Texts.of("gloss.unread")
                    : node.kind() == FieldNode.Kind.VALUE && node.value() != null ? SafeText.of(shorten(node.value())) : "";
            case MEANING -> meaning(node);
        };
    }

    private String gap(Object element) {
        if (element instanceof Gaps gaps) {
            return switch (column) {
                case NAME -> Texts.of("fields.gaps");
                case VALUE -> Texts.of("fields.gaps.bytes", Numbers.grouped(gaps.bytes()));
                case MEANING -> gaps.count() == gaps.ranges().size() ? "" : Texts.of("fields.gaps.first", Numbers.grouped(gaps.ranges().size()), Numbers.grouped(gaps.count()));
            };
        }
        Gaps.Gap gap = (Gaps.Gap) element;
        return switch (column) {
            case NAME -> Texts.of("fields.gap", Numbers.grouped(gap.offset()), Numbers.hex(gap.offset(), 3));
            case VALUE -> Texts.of("fields.gaps.bytes", Numbers.grouped(gap.range().length()));
            case MEANING -> gap.preview();
        };
    }

    private static String meaning(FieldNode node) {
        if (node.problem() != null) {
            return SafeText.of(node.problem());
        }
        if (node.meaning() != null) {
            return SafeText.of(shorten(node.meaning()));
        }
        return node.link() == null ? "" : Texts.of("fields.pointer");
    }

    private static String shorten(String text) {
        return text.length() <= 120 ? text : text.substring(0, 119) + "\u2026";
    }

    @Override
    public Color getForeground(Object element) {
        if (!(element instanceof FieldNode node)) {
            return Ink.of(Tone.QUIET);
        }
        if (cover.hides(node)) {
            return null;
        }
        if (judged.getAsBoolean() && node.state() == FieldNode.State.VIOLATED) {
            return Ink.of(Tone.WRONG);
        }
        return column == Column.VALUE && node.link() != null ? Ink.of(Tone.LINK) : null;
    }

    @Override
    public Image getImage(Object element) {
        if (column != Column.NAME || open.get() == null || !(element instanceof FieldNode node)) {
            return null;
        }
        if (node.length() <= 0 || cover.hides(node)) {
            return null;
        }
        List<Finding> findings = open.get().findings(new ByteRange(node.firstByte(), node.length()));
        Sign worst = null;
        for (Finding finding : findings) {
            Sign sign = Sign.of(finding);
            worst = worst == null || sign.ordinal() < worst.ordinal() ? sign : worst;
        }
        return worst == null ? null : images.of(worst);
    }

    @Override
    public String getToolTipText(Object element) {
        if (element instanceof FieldNode node && cover.hides(node)) {
            return Texts.of("cover.tip");
        }
        String doc = element instanceof FieldNode node ? node.doc() : Texts.of("fields.gaps.tip");
        return doc == null ? null : SafeText.of(doc.strip().replaceAll("\\s+", " "));
    }

    @Override
    public void dispose() {
        images.dispose();
        super.dispose();
    }
}
