package sectorglass.workbench.recovery.states;

import java.util.LinkedHashMap;
import java.util.Map;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Spinner;
import org.eclipse.swt.widgets.Text;

import sectorglass.image.ReadState;
import sectorglass.image.TextLog;
import sectorglass.workbench.recovery.Words;

/** The fields of the dialog that say how a text log is read. */
final class LogFields {
    private static final String[] DELIMITERS = {",", ";", " ", "\t", "|", ":"};
    private static final int[] BASES = {10, 16, 8};

    private final Combo delimiter;
    private final Spinner skipped;
    private final Text comment;
    private final Spinner start;
    private final Spinner size;
    private final Combo meaning;
    private final Spinner state;
    private final Combo base;
    private final Combo unit;
    private final Text[] words = new Text[ReadState.values().length];
    private final Combo others;
    private final Button tolerant;
    private final Runnable changed;

    LogFields(Composite parent, Runnable changed) {
        this.changed = changed;
        Composite grid = new Composite(parent, SWT.NONE);
        grid.setLayout(new GridLayout(6, false));
        grid.setLayoutData(new GridData(SWT.FILL, SWT.BEGINNING, true, false));
        delimiter = combo(grid, "log.delimiter", Words.of("log.delimiters").split("\\|"));
        skipped = spinner(grid, "log.skipped", 0, 0);
        comment = text(grid, "log.comment", "#");
        start = spinner(grid, "log.start", 1, 1);
        size = spinner(grid, "log.size", 0, 2);
        meaning = combo(grid, "log.meaning", Words.of("log.meanings").split("\\|"));
        state = spinner(grid, "log.state", 0, 3);
        base = combo(grid, "log.base", "10", "16", "8");
        unit = combo(grid, "log.unit", Words.of("log.units").split("\\|"));
        for (ReadState each : ReadState.values()) {
            words[each.ordinal()] = text(grid, "log.word." + each.word(), each.word());
        }
        String[] none = {Words.of("log.mistake")};
        others = combo(grid, "log.others", java.util.stream.Stream.concat(java.util.stream.Stream.of(none),
                java.util.Arrays.stream(ReadState.values()).map(s -> Words.of("readstate." + s.word()))).toArray(String[]::new));
        new Label(grid, SWT.NONE);
        tolerant = new Button(grid, SWT.CHECK);
        tolerant.setText(Words.of("log.tolerant"));
        tolerant.addListener(SWT.Selection, event -> changed.run());
    }

    private static void label(Composite grid, String key) {
        new Label(grid, SWT.NONE).setText(Words.of(key));
    }

    private Combo combo(Composite grid, String key, String... items) {
        label(grid, key);
        Combo made = new Combo(grid, SWT.READ_ONLY);
        made.setItems(items);
        made.select(0);
        made.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        made.addListener(SWT.Selection, event -> changed.run());
        return made;
    }

    private Spinner spinner(Composite grid, String key, int least, int value) {
        label(grid, key);
        Spinner made = new Spinner(grid, SWT.BORDER);
        made.setValues(value, least, key.equals("log.skipped") ? 1_000_000 : 256, 0, 1, 10);
        made.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        made.addListener(SWT.Selection, event -> changed.run());
        return made;
    }

    private Text text(Composite grid, String key, String value) {
        label(grid, key);
        Text made = new Text(grid, SWT.BORDER);
        made.setText(value);
        made.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        made.addListener(SWT.Modify, event -> changed.run());
        return made;
    }

    /**
     * The reading as the fields say.
     *
     * @throws IllegalArgumentException where there is neither a column for the state nor a state for all lines
     */
    TextLog log() {
        Map<String, ReadState> map = new LinkedHashMap<>();
        for (ReadState each : ReadState.values()) {
            for (String word : words[each.ordinal()].getText().split("[,;]")) {
                if (!word.isBlank()) {
                    map.put(word.strip(), each);
                }
            }
        }
        ReadState other = others.getSelectionIndex() == 0 ? null : ReadState.values()[others.getSelectionIndex() - 1];
        if (state.getSelection() == 0 && other == null) {
            throw new IllegalArgumentException(Words.of("log.nostate"));
        }
        return TextLog.DEFAULT.withDelimiter(DELIMITERS[delimiter.getSelectionIndex()]).withSkipped(skipped.getSelection(), comment.getText())
                .withColumns(start.getSelection(), size.getSelection(), TextLog.Size.values()[meaning.getSelectionIndex()], state.getSelection())
                .withNumbers(BASES[base.getSelectionIndex()], TextLog.Unit.values()[unit.getSelectionIndex()])
                .withWords(map, other).withTolerant(tolerant.getSelection());
    }
}
