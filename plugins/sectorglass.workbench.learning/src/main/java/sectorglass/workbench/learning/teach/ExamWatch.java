package sectorglass.workbench.learning.teach;

import java.nio.file.Path;

import org.eclipse.ui.IStartup;
import org.eclipse.ui.PlatformUI;

import sectorglass.practice.disk.PracticeFile;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.model.Exam;
import sectorglass.workbench.opening.Bench;

/** Begins an exam when a practice disk is opened whose task sheet asks for it. Started with the workbench. */
public final class ExamWatch implements IStartup, DeskListener {

    @Override
    public void earlyStartup() {
        PlatformUI.getWorkbench().getDisplay().asyncExec(() -> {
            Bench.desk().add(this);
            diskChanged();
        });
    }

    @Override
    public void diskChanged() {
        Desk desk = Bench.desk();
        Path path = desk.open() == null ? null : desk.open().path();
        if (path != null && desk.exam() != Exam.SHEET && PracticeFile.beside(path).filter(PracticeFile::exam).isPresent()) {
            Exams.begin(Exam.SHEET);
        }
    }
}
