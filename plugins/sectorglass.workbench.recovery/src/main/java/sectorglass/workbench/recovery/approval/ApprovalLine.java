package sectorglass.workbench.recovery.approval;

import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Label;

import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.records.Records;

/** One line that says whether the customer approved. */
public final class ApprovalLine {
    private final Label line;

    /** Builds the line at the end of a row. */
    public ApprovalLine(Composite row) {
        line = new Label(row, SWT.NONE);
        line.setLayoutData(new GridData(SWT.END, SWT.BEGINNING, false, false));
        line.setText(ApprovalWords.latest(List.of()));
    }

    /** Other approvals are recorded than before. */
    public void update() {
        Records records = Bench.desk().records();
        List<Job.Approval> all = records.approvals();
        String said = records.trouble() != null ? records.trouble() : ApprovalWords.latest(all);
        String note = all.isEmpty() ? null : all.get(all.size() - 1).note();
        line.setText(said.replace("&", "&&"));
        line.setToolTipText(note == null ? said : said + "\n" + SafeText.of(note));
        line.getParent().layout();
    }
}
