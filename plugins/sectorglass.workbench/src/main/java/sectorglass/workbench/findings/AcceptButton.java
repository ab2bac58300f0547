package sectorglass.workbench.findings;

import java.util.List;
import java.util.function.Supplier;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;

import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.records.ReasonDialog;

/** Accepts the chosen findings as they are; where all of them are accepted, withdraws that. */
final class AcceptButton {
    private final Desk desk;
    private final Supplier<List<Finding>> chosen;
    private final Button button;

    AcceptButton(Composite parent, Desk desk, Supplier<List<Finding>> chosen) {
        this.desk = desk;
        this.chosen = chosen;
        button = new Button(parent, SWT.PUSH);
        button.addListener(SWT.Selection, event -> ask());
        button.setText(Texts.of("findings.accept"));
        button.setToolTipText(Texts.of("findings.accept.tip"));
        button.setEnabled(false);
    }

    /** Others are chosen, or others are accepted. */
    void update() {
        List<Finding> findings = chosen.get();
        boolean withdraws = withdraws(findings);
        String text = Texts.of(withdraws ? "findings.withdraw" : "findings.accept");
        button.setEnabled(!findings.isEmpty());
        if (!text.equals(button.getText())) {
            button.setText(text);
            button.setToolTipText(Texts.of(withdraws ? "findings.withdraw.tip" : "findings.accept.tip"));
            button.getParent().layout();
        }
    }

    private boolean withdraws(List<Finding> findings) {
        AcceptedFindings accepted = desk.records().accepted();
        return !findings.isEmpty() && findings.stream().allMatch(accepted::has);
    }

    private void ask() {
        List<Finding> findings = chosen.get();
        if (findings.isEmpty()) {
            return;
        }
        if (withdraws(findings)) {
            AcceptedFindings accepted = desk.records().accepted();
            boolean whole = findings.stream().flatMap(finding -> accepted.all(finding).stream()).map(Job.Accepted::firstByte).anyMatch(at -> at == null);
            new ReasonDialog(button.getShell(), Texts.of("findings.withdraw.title"),
                    Texts.of(whole ? "findings.withdraw.whole" : "findings.withdraw.message", Numbers.grouped(findings.size())), Texts.of("findings.withdraw.do"),
                    (who, why) -> desk.records().withdraw(findings, who, why)).open();
        } else {
            new ReasonDialog(button.getShell(), Texts.of("findings.accept.title"), Texts.of("findings.accept.message", Numbers.grouped(findings.size())),
                    Texts.of("findings.accept.do"), (who, why) -> desk.records().accept(findings, who, why)).open();
        }
    }
}
