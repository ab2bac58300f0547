package sectorglass.workbench.opening;

import java.util.concurrent.Executor;
import java.util.concurrent.Executors;

import org.eclipse.swt.widgets.Display;

import sectorglass.decode.FormatCatalogue;
import sectorglass.workbench.byhand.HandMemory;
import sectorglass.workbench.model.Desk;

/** The desk of this workbench; there is one, and all windows show it. */
public final class Bench {
    private static Desk desk;
    private static FormatCatalogue catalogue;

    private Bench() {
    }

    /** The desk. For the thread of the window. */
    public static Desk desk() {
        if (desk == null) {
            Display display = Display.getCurrent();
            Executor worker = Executors.newFixedThreadPool(2, task -> {
                Thread thread = new Thread(task, "sectorglass decoding");
                thread.setDaemon(true);
                return thread;
            });
            desk = new Desk(worker, task -> {
                if (!display.isDisposed()) {
                    display.asyncExec(task);
                }
            });
            desk.add(new HandMemory(desk));
            desk.exam(ExamMemory.kept());
            desk.add(new ExamMemory(desk));
        }
        return desk;
    }

    /** The formats of all bundles. */
    public static synchronized FormatCatalogue catalogue() {
        if (catalogue == null) {
            catalogue = FormatCatalogue.ofProviders();
        }
        return catalogue;
    }
}
