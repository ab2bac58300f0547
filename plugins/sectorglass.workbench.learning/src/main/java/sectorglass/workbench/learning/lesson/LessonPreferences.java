package sectorglass.workbench.learning.lesson;

import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.jface.preference.DirectoryFieldEditor;
import org.eclipse.jface.preference.FieldEditorPreferencePage;
import org.eclipse.ui.IWorkbench;
import org.eclipse.ui.IWorkbenchPreferencePage;
import org.eclipse.ui.preferences.ScopedPreferenceStore;

import sectorglass.workbench.learning.LearnTexts;

/** The folder of a teacher's own lessons. */
public final class LessonPreferences extends FieldEditorPreferencePage implements IWorkbenchPreferencePage {

    /** A page with one choice. */
    public LessonPreferences() {
        super(GRID);
    }

    @Override
    public void init(IWorkbench workbench) {
        setPreferenceStore(new ScopedPreferenceStore(InstanceScope.INSTANCE, "sectorglass.workbench.learning"));
        setDescription(LearnTexts.of("preferences.lessons"));
    }

    @Override
    protected void createFieldEditors() {
        addField(new DirectoryFieldEditor(Shelf.FOLDER, LearnTexts.of("preferences.folder"), getFieldEditorParent()));
    }
}
