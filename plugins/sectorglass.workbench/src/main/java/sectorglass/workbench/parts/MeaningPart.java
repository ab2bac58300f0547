package sectorglass.workbench.parts;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyleRange;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Composite;

import sectorglass.image.ByteRange;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Tone;

/** One field in words: what it is, its bits, the arithmetic of its pointer, its source; else what the bytes would be. */
public final class MeaningPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.meaning";

    private EmptyHint hint;
    private StyledText text;

    @Override
    void create(Composite parent) {
        hint = new EmptyHint(parent, "meaning.empty");
        text = new StyledText(hint.parent(), SWT.WRAP | SWT.V_SCROLL | SWT.READ_ONLY | SWT.MULTI);
        text.setMargins(10, 8, 10, 8);
        text.setLineSpacing(2);
        text.setTabs(2);
        Look.follow(text, this::explained);
        text.setFont(Size.words());
        Size.follow(text, () -> {
            text.setFont(Size.words());
            explained();
        });
    }

    @Override
    public void diskChanged() {
        explained();
    }

    @Override
    public void caretMoved() {
        if (desk().ownSelection() != null) {
            explained();
        }
    }

    @Override
    public void findingChosen() {
        explained();
    }

    @Override
    public void coverChanged() {
        explained();
    }

    @Override
    public void examChanged() {
        explained();
    }

    @Override
    public void recordsChanged() {
        explained();
    }

    @Override
    public void findingsChanged() {
        explained();
    }

    @Override
    public void explained() {
        if (text == null) {
            return;
        }
        boolean any = desk().open() != null && !desk().exam().runs();
        hint.say(desk().exam().runs() ? ExamWords.closed(desk().exam()) : Texts.of("meaning.empty"));
        if (any) {
            Finding finding = desk().finding();
            boolean aboutFinding = finding != null && finding.where().equals(desk().selection());
            Prose prose = aboutFinding ? FindingProse.of(finding, desk().open(), desk().records().accepted().of(finding)) : FieldProse.of(desk());
            ByteRange own = desk().ownSelection();
            if (own != null) {
                show(SelectionProse.of(own, null).then(prose));
                if (own.length() <= SelectionProse.AT_ONCE) {
                    desk().checksums(own, sums -> {
                        if (!text.isDisposed()) {
                            show(SelectionProse.of(own, sums).then(prose));
                        }
                    });
                }
            } else {
                show(prose);
            }
        }
        hint.show(text, any);
    }

    private void show(Prose prose) {
        text.setText(prose.text());
        for (Prose.Stretch stretch : prose.stretches()) {
            StyleRange style = new StyleRange();
            style.start = stretch.start();
            style.length = stretch.length();
            switch (stretch.look()) {
                case TITLE -> style.fontStyle = SWT.BOLD;
                case LABEL -> style.foreground = Ink.of(Tone.QUIET);
                case WRONG -> style.foreground = Ink.of(Tone.WRONG);
                case BYTES -> style.font = Size.bytes();
            }
            text.setStyleRange(style);
        }
    }

    @Override
    public void setFocus() {
        hint.parent().setFocus();
    }
}
