package sectorglass.workbench.tests;

import java.time.Instant;
import java.util.Locale;

import org.eclipse.jface.dialogs.Dialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Tree;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.recovery.Job;
import sectorglass.workbench.InspectPerspective;

/** Makes the pictures of the perspective Recover, in German those of files and plan; properties as for {@link Screenshots}. */
class RecoverScreenshots {

    private static Tree files() {
        Tree files = Ui.get(() -> Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 5).findFirst().orElseThrow());
        Ui.run(() -> {
            files.setSelection(files.getItem(1));
            files.notifyListeners(SWT.Selection, new Event());
        });
        return files;
    }

    @Test
    void scenes() throws Exception {
        boolean german = Locale.getDefault().getLanguage().equals("de");
        String name = german ? "recover-de-" : "recover-";
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
        Screenshots.size();
        for (boolean dark : new boolean[] {false, true}) {
            String theme = "-" + Screenshots.theme(dark);
            Ui.open(Demo.Variant.PARTLY_READ);
            Ui.run(() -> Ui.part(RecoverTest.RECOVER + "files"));
            Screenshots.shoot(name + "files" + theme);
            Ui.run(() -> Ui.part(RecoverTest.RECOVER + "drawing"));
            Screenshots.shoot(name + "drawing" + theme);
            Ui.run(() -> {
                Ui.part(RecoverTest.RECOVER + "plan");
                RecoverTest.press(Ui.window(), german ? "Plan machen" : "Make plan");
            });
            Screenshots.shoot(name + "plan" + theme);
            if (!german) {
                Shell heads = PlanTest.drawnZone();
                Screenshots.shoot(name + "heads" + theme);
                Ui.run(() -> ((Dialog) heads.getData()).close());
                Ui.run(() -> Ui.part(RecoverTest.RECOVER + "files"));
                RecoverTest.testAll();
                Screenshots.shoot(name + "tests" + theme);
                Shell extract = HandOutTest.extractDialog(files());
                Screenshots.shoot(name + "extract" + theme);
                Ui.run(() -> RecoverTest.press(extract, "Cancel"));
                Shell report = RecoverTest.reportDialog();
                Screenshots.shoot(name + "report" + theme);
                Ui.run(() -> ((Dialog) report.getData()).close());
                Ui.run(() -> Ui.desk().records().approve(new Job.Approval(Instant.parse("2026-11-20T10:00:00Z"), "bench 3", "2026-117", "on paper, signed", "all but the films")));
                Shell approval = RecoverTest.approvalDialog();
                Screenshots.shoot(name + "approval" + theme);
                Ui.run(() -> ((Dialog) approval.getData()).close());
                RecoverTest.compareWithChanged();
                Screenshots.shoot(name + "copies" + theme);
                Shell dialog = RecoverTest.importDialog(RecoverTest.log());
                Screenshots.shoot(name + "import" + theme);
                Ui.run(() -> ((Dialog) dialog.getData()).close());
                ProposalsTest.look();
                Screenshots.shoot(name + "proposals" + theme);
                Shell change = ProposalsTest.changeDialog(ProposalsTest.GUID);
                Screenshots.shoot(name + "change" + theme);
                Ui.run(() -> ((Dialog) change.getData()).close());
            }
        }
        Screenshots.theme(false);
        RecoverTest.perspective(InspectPerspective.ID);
    }
}
