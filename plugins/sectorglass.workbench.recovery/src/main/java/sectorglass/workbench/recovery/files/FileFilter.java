package sectorglass.workbench.recovery.files;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Text;

import sectorglass.disk.FileState;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.workbench.recovery.Words;

/** What a person asks of the list of files: words, a state, a kind, with deleted ones or without. */
final class FileFilter {
    private static final int PAUSE = 250;

    private final Text words;
    private final Combo states;
    private final Combo kinds;
    private final Button deleted;
    private final Runnable later;

    /**
     * What is asked.
     *
     * @param words part of a name or a pattern, or blank
     * @param state or null for any
     * @param kind or null for any
     * @param deleted whether deleted ones are wanted
     */
    record Asked(String words, FileState state, FileKind kind, boolean deleted) { }

    /** Builds the controls; they take five columns. */
    FileFilter(Composite row, Runnable changed) {
        later = () -> {
            if (!row.isDisposed()) {
                changed.run();
            }
        };
        new Label(row, SWT.NONE).setText(Words.of("files.filter"));
        words = new Text(row, SWT.SEARCH | SWT.ICON_CANCEL);
        words.setMessage(Words.of("files.filter.hint"));
        words.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        words.addListener(SWT.Modify, event -> words.getDisplay().timerExec(PAUSE, later));
        states = combo(row, "files.anystate");
        for (FileState state : FileState.values()) {
            states.add(States.word(state));
        }
        kinds = combo(row, "files.anykind");
        for (FileKind kind : FileKind.values()) {
            kinds.add(Words.of("kind." + kind.word().replace(' ', '-')));
        }
        deleted = new Button(row, SWT.CHECK);
        deleted.setText(Words.of("files.deleted"));
        deleted.setSelection(true);
        deleted.addListener(SWT.Selection, event -> changed.run());
    }

    private Combo combo(Composite row, String any) {
        Combo made = new Combo(row, SWT.READ_ONLY);
        made.add(Words.of(any));
        made.select(0);
        made.addListener(SWT.Selection, event -> later.run());
        return made;
    }

    /** Whether anything is asked. */
    boolean on() {
        Asked asked = asked();
        return !asked.words().isBlank() || asked.state() != null || asked.kind() != null || !asked.deleted();
    }

    Asked asked() {
        return new Asked(words.getText(), states.getSelectionIndex() <= 0 ? null : FileState.values()[states.getSelectionIndex() - 1],
                kinds.getSelectionIndex() <= 0 ? null : FileKind.values()[kinds.getSelectionIndex() - 1], deleted.getSelection());
    }

    /** Asks nothing any more; for the caller to show that. */
    void clear() {
        words.setText("");
        words.getDisplay().timerExec(-1, later);
        kinds.select(0);
        states.select(0);
        deleted.setSelection(true);
    }

    /** Asks for a kind, without deleted ones; for the caller to show that. */
    void only(FileKind kind) {
        clear();
        kinds.select(kind.ordinal() + 1);
        deleted.setSelection(false);
    }
}
