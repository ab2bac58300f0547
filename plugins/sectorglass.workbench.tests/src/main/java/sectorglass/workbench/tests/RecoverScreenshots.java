package sectorglass.workbench.tests;

import java.nio.file.Files;
import java.nio.file.Path;

import org.eclipse.jface.dialogs.Dialog;
import org.eclipse.swt.widgets.Shell;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.workbench.InspectPerspective;

/** Makes the pictures of the perspective Recover; properties as for {@link Screenshots}. */
class RecoverScreenshots {

    @Test
    void scenes() throws Exception {
        Files.createDirectories(Path.of(System.getProperty("uitest.pictures", "target/pictures")));
        String[] size = System.getProperty("uitest.size", "1920x1080").split("x");
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
        Ui.run(() -> {
            Shell shell = Ui.window();
            shell.setMaximized(false);
            shell.setBounds(0, 0, Integer.parseInt(size[0]), Integer.parseInt(size[1]));
        });
        Ui.open(Demo.Variant.PARTLY_READ);
        Ui.run(() -> Ui.part(RecoverTest.RECOVER + "files"));
        Screenshots.shoot("recover-files");
        Ui.run(() -> {
            Ui.part(RecoverTest.RECOVER + "plan");
            RecoverTest.press(Ui.window(), "Make plan");
        });
        Screenshots.shoot("recover-plan");
        RecoverTest.compareWithChanged();
        Screenshots.shoot("recover-copies");
        Shell dialog = RecoverTest.importDialog(RecoverTest.log());
        Screenshots.shoot("recover-import");
        Ui.run(() -> ((Dialog) dialog.getData()).close());
        ProposalsTest.look();
        Screenshots.shoot("recover-proposals");
        Shell change = ProposalsTest.changeDialog(ProposalsTest.GUID);
        Screenshots.shoot("recover-change");
        Ui.run(() -> ((Dialog) change.getData()).close());
        RecoverTest.perspective(InspectPerspective.ID);
    }
}
