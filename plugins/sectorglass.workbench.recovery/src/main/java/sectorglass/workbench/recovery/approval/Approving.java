package sectorglass.workbench.recovery.approval;

import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.swt.widgets.Shell;

import sectorglass.workbench.model.Desk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.Words;

/** Records that the customer approved the list. */
public final class Approving {

    private Approving() {
    }

    /** Asks what was approved by whom, and records it in the job of the open disk. */
    public static void ask(Shell shell) {
        Desk desk = Bench.desk();
        if (desk.open() == null || desk.open().path() == null) {
            MessageDialog.openInformation(shell, Words.of("approval.title"), Words.of(desk.open() == null ? "report.nodisk" : "approval.nofile"));
            return;
        }
        new ApprovalDialog(shell, desk.records().approvals(), desk.records().reference(), desk.records()::approve).open();
    }
}
