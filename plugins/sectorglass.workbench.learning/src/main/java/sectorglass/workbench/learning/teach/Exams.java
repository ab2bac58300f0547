package sectorglass.workbench.learning.teach;

import java.util.HashSet;
import java.util.Set;

import org.eclipse.core.runtime.ILog;
import org.eclipse.swt.widgets.Display;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.IWorkbenchPage;
import org.eclipse.ui.IWorkbenchWindow;
import org.eclipse.ui.PartInitException;
import org.eclipse.ui.PlatformUI;

import sectorglass.workbench.model.Exam;
import sectorglass.workbench.opening.Bench;

/** Begins and ends exams: the parts that would give the answers away are closed, and opened again. For the thread of the window. */
public final class Exams {
    private static final String[] CLOSED = {"sectorglass.workbench.findings", "sectorglass.workbench.meaning"};
    private static final Set<String> OPEN_BEFORE = new HashSet<>();

    private Exams() {
    }

    /** Begins an exam; one that runs is not made weaker. */
    public static void begin(Exam exam) {
        if (Bench.desk().exam() == Exam.SHEET || !exam.runs()) {
            return;
        }
        Bench.desk().exam(exam);
        Display.getCurrent().asyncExec(Exams::close); // who is told of the exam now may be one of the parts
    }

    private static void close() {
        IWorkbenchPage page = Bench.desk().exam().runs() ? page() : null;
        for (String id : CLOSED) {
            IViewPart part = page == null ? null : page.findView(id);
            if (part != null) {
                OPEN_BEFORE.add(id);
                page.hideView(part);
            }
        }
    }

    /** Ends the exam. */
    public static void end() {
        Bench.desk().exam(Exam.NONE);
        IWorkbenchPage page = page();
        for (String id : CLOSED) {
            try {
                if (page != null && OPEN_BEFORE.remove(id)) {
                    page.showView(id, null, IWorkbenchPage.VIEW_VISIBLE);
                }
            } catch (PartInitException e) {
                ILog.get().error("The part " + id + " cannot be shown.", e);
            }
        }
    }

    private static IWorkbenchPage page() {
        IWorkbenchWindow window = PlatformUI.getWorkbench().getActiveWorkbenchWindow();
        return window == null ? null : window.getActivePage();
    }
}
