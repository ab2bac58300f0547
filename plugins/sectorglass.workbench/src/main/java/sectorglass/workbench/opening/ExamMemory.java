package sectorglass.workbench.opening;

import java.util.Arrays;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.osgi.service.prefs.BackingStoreException;

import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.model.Exam;

/** Keeps in the workspace that an exam runs, so that it is not ended by closing the window. */
record ExamMemory(Desk desk) implements DeskListener {
    private static final String KEY = "exam";

    /** The exam that ran when the window was closed. */
    static Exam kept() {
        String word = InstanceScope.INSTANCE.getNode("sectorglass.workbench").get(KEY, "");
        return Arrays.stream(Exam.values()).filter(exam -> exam.name().equals(word)).findFirst().orElse(Exam.NONE);
    }

    @Override
    public void examChanged() {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode("sectorglass.workbench");
        node.put(KEY, desk.exam().name());
        try {
            node.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("It could not be kept that an exam runs.", e);
        }
    }
}
