package sectorglass.workbench.learning.teach;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;
import org.eclipse.jface.dialogs.InputDialog;
import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.jface.window.Window;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.handlers.HandlerUtil;

import sectorglass.workbench.learning.LearnTexts;
import sectorglass.workbench.model.Exam;
import sectorglass.workbench.opening.Bench;

/** Begins an exam, or ends it; the last word of the command's id says which. */
public final class ExamHandler extends AbstractHandler {

    @Override
    public Object execute(ExecutionEvent event) {
        Shell shell = HandlerUtil.getActiveShell(event);
        if (event.getCommand().getId().endsWith(".begin")) {
            begin(shell);
        } else {
            end(shell);
        }
        return null;
    }

    private static void begin(Shell shell) {
        if (Bench.desk().exam().runs()) {
            MessageDialog.openInformation(shell, LearnTexts.of("exam.title"), LearnTexts.of("exam.runs"));
        } else if (MessageDialog.openConfirm(shell, LearnTexts.of("exam.title"), LearnTexts.of("exam.begin.ask"))) {
            Exams.begin(Exam.HERE);
        }
    }

    /** An exam that a task sheet began asks for a word that nobody types by accident. */
    private static void end(Shell shell) {
        Exam exam = Bench.desk().exam();
        if (!exam.runs()) {
            MessageDialog.openInformation(shell, LearnTexts.of("exam.title"), LearnTexts.of("exam.none"));
        } else if (exam == Exam.HERE ? MessageDialog.openConfirm(shell, LearnTexts.of("exam.title"), LearnTexts.of("exam.end.ask")) : teacher(shell)) {
            Exams.end();
        }
    }

    private static boolean teacher(Shell shell) {
        String word = LearnTexts.of("exam.end.word");
        return new InputDialog(shell, LearnTexts.of("exam.title"), LearnTexts.of("exam.end.sheet", word), "",
                typed -> typed.strip().equalsIgnoreCase(word) ? null : "").open() == Window.OK;
    }
}
