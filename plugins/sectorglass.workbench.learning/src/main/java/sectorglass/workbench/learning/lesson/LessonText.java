package sectorglass.workbench.learning.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyleRange;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.graphics.Point;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;

import sectorglass.practice.lesson.GlossaryTerm;
import sectorglass.practice.lesson.TextPart;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.look.Tone;

/** A text of a lesson: wrapped, terms explained when the pointer rests on them or Enter is pressed in them. */
final class LessonText {
    private final StyledText text;
    private final List<Piece> pieces = new ArrayList<>();

    /** A piece of the text, and how it looks. */
    private record Piece(int start, int length, TextPart part, boolean strong, Tone tone) {
        boolean holds(int offset) {
            return offset >= start && offset <= start + length;
        }
    }

    LessonText(Composite parent, int style) {
        text = new StyledText(parent, SWT.WRAP | SWT.READ_ONLY | SWT.MULTI | style);
        text.setMargins(12, 6, 12, 6);
        text.setLineSpacing(4);
        text.setTabs(2);
        Paper.of(text);
        Look.follow(text, this::style);
        Size.follow(text, this::style);
        text.addListener(SWT.MouseMove, this::hover);
        text.addListener(SWT.KeyDown, event -> {
            if (event.keyCode == SWT.CR && event.stateMask == 0) {
                text.setToolTipText(null);
                explain(text.getCaretOffset());
            }
        });
        text.addListener(SWT.MouseUp, event -> explain(text.getOffsetAtPoint(new Point(event.x, event.y))));
    }

    StyledText control() {
        return text;
    }

    void clear() {
        pieces.clear();
        text.setText("");
    }

    /** Adds a paragraph. */
    void add(List<TextPart> parts, boolean strong) {
        add(parts, strong, null);
    }

    /** Adds plain words in a tone; they are a paragraph. */
    void add(String words, boolean strong, Tone tone) {
        add(List.of(new TextPart(TextPart.Kind.PLAIN, words, null)), strong, tone);
    }

    private void add(List<TextPart> parts, boolean strong, Tone tone) {
        if (parts.stream().allMatch(part -> part.text().isBlank())) {
            return;
        }
        StringBuilder all = new StringBuilder(text.getText());
        if (all.length() > 0) {
            all.append("\n\n");
        }
        for (TextPart part : parts) {
            pieces.add(new Piece(all.length(), part.text().length(), part, strong, tone));
            all.append(part.text());
        }
        text.setText(all.toString());
        style();
    }

    private void style() {
        text.setFont(Size.reading());
        for (Piece piece : pieces) {
            StyleRange range = new StyleRange();
            range.start = piece.start();
            range.length = piece.length();
            range.fontStyle = piece.strong() || piece.part().kind() == TextPart.Kind.DEFINED ? SWT.BOLD : SWT.NORMAL;
            range.foreground = piece.tone() == null ? null : Ink.of(piece.tone());
            if (piece.part().kind() == TextPart.Kind.CODE) {
                range.font = Size.readingBytes();
            }
            if (piece.part().kind() == TextPart.Kind.TERM) {
                range.underline = true;
                range.underlineStyle = SWT.UNDERLINE_SINGLE;
                range.underlineColor = Ink.of(Tone.BRACKET_NEXT);
            }
            text.setStyleRange(range);
        }
        text.requestLayout();
    }

    private GlossaryTerm termAt(int offset) {
        return offset < 0 ? null : pieces.stream().filter(piece -> piece.holds(offset) && piece.part().term() != null).map(piece -> piece.part().term())
                .findFirst().orElse(null);
    }

    private void hover(Event event) {
        GlossaryTerm term = termAt(text.getOffsetAtPoint(new Point(event.x, event.y)));
        String words = term == null ? null : said(term).replace("&", "&&");
        if (!java.util.Objects.equals(words, text.getToolTipText())) {
            text.setToolTipText(words);
        }
    }

    private void explain(int offset) {
        GlossaryTerm term = termAt(offset);
        if (term != null) {
            TermWindow.open(text, said(term));
        }
    }

    private static String said(GlossaryTerm term) {
        Locale locale = Locale.getDefault();
        return term.name().in(locale) + ": " + TextPart.plain(term.text().in(locale));
    }
}
