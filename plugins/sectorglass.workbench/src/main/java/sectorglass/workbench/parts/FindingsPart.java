package sectorglass.workbench.parts;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Composite;

import sectorglass.verify.Findings;
import sectorglass.workbench.findings.FindingsBoard;
import sectorglass.workbench.look.Texts;

/** What the checks found: sign, what, where, stored, computed. Choosing a line opens its bytes; Meaning explains it. */
public final class FindingsPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.findings";

    private EmptyHint hint;
    private FindingsBoard board;

    @Override
    void create(Composite parent) {
        hint = new EmptyHint(parent, "findings.empty");
        board = new FindingsBoard(hint.parent(), desk());
        parent.addListener(SWT.Dispose, event -> board.close());
    }

    /** The list and what is asked of it, for commands. */
    public FindingsBoard board() {
        return board;
    }

    @Override
    public void diskChanged() {
        if (board == null) {
            return;
        }
        boolean open = desk().open() != null;
        Findings findings = open ? desk().open().findings() : null;
        board.refresh();
        if (desk().exam().runs()) {
            hint.say(ExamWords.closed(desk().exam()));
        } else if (!open) {
            hint.say(Texts.of("findings.empty"));
        } else if (findings == null) {
            hint.say(Texts.of("findings.running"));
        } else if (findings.all().isEmpty()) {
            hint.say(Texts.of("findings.nothing"));
        }
        hint.show(board.control(), findings != null && !findings.all().isEmpty());
    }

    @Override
    public void findingsChanged() {
        diskChanged();
    }

    @Override
    public void recordsChanged() {
        if (board != null) {
            board.accepted();
        }
    }

    @Override
    public void examChanged() {
        diskChanged();
    }

    @Override
    public void setFocus() {
        if (board.control().isVisible()) {
            board.focus();
        } else {
            hint.parent().setFocus();
        }
    }
}
