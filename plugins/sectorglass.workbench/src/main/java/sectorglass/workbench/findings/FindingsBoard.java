package sectorglass.workbench.findings;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Executor;
import java.util.concurrent.Executors;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.layout.RowData;
import org.eclipse.swt.layout.RowLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.Text;

import sectorglass.recovery.AcceptedFindings;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.OpenDisk;

/** The findings with what one asks of them: severities, volume, words, grouping, order; copy and export. */
public final class FindingsBoard {
    /** Lists up to here are worked out at once; longer ones beside the window. */
    private static final int AT_ONCE = 2_000;

    private final Desk desk;
    private final Composite content;
    private final Button[] kinds = new Button[Sign.values().length];
    private final Executor worker = Executors.newSingleThreadExecutor(task -> {
        Thread thread = new Thread(task, "sectorglass findings");
        thread.setDaemon(true);
        return thread;
    });
    private final Set<String> turned = new HashSet<>();
    private final List<Integer> volumes = new ArrayList<>();
    private Combo volume;
    private Combo group;
    private Combo acceptance;
    private AcceptButton accept;
    private Text words;
    private Label summary;
    private FindingTable table;
    private FindingColumn order = FindingsMemory.order();
    private boolean backwards = FindingsMemory.backwards();
    private Rows rows = new Rows(List.of(), List.of());
    private int asked;

    /** Builds the board. */
    public FindingsBoard(Composite parent, Desk desk) {
        this.desk = desk;
        content = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 0;
        grid.marginHeight = 2;
        grid.verticalSpacing = 2;
        content.setLayout(grid);
        bar();
        table = new FindingTable(content, finding -> {
            if (finding != desk.finding()) {
                desk.choose(finding);
            }
        }, this::turn, this::sort);
        table.control().addListener(SWT.Selection, event -> accept.update());
        // the table learns its new size first
        content.addListener(SWT.Resize, event -> content.getDisplay().asyncExec(this::widen));
        content.getDisplay().asyncExec(this::widen);
    }

    /** The control. */
    public Control control() {
        return content;
    }

    /** Gives the keyboard to the list. */
    public void focus() {
        table.control().setFocus();
    }

    private void bar() {
        Composite bar = new Composite(content, SWT.NONE);
        bar.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        RowLayout row = new RowLayout(SWT.HORIZONTAL);
        row.center = true;
        row.marginTop = 0;
        row.marginBottom = 0;
        row.marginLeft = 6;
        row.spacing = 6;
        bar.setLayout(row);
        Set<Sign> wanted = FindingsMemory.signs();
        for (Sign sign : Sign.values()) {
            Button button = new Button(bar, SWT.CHECK);
            button.setText(sign.word());
            button.setSelection(wanted.contains(sign));
            button.addListener(SWT.Selection, event -> asked(true));
            kinds[sign.ordinal()] = button;
        }
        volume = new Combo(bar, SWT.READ_ONLY);
        volume.setToolTipText(Texts.of("findings.volume.tip"));
        volume.add(Texts.of("findings.volume.all"));
        volume.select(0);
        volume.addListener(SWT.Selection, event -> asked(true));
        group = new Combo(bar, SWT.READ_ONLY);
        group.setToolTipText(Texts.of("findings.group.tip"));
        for (Grouping each : Grouping.values()) {
            group.add(each.word());
        }
        group.select(FindingsMemory.grouping().ordinal());
        group.addListener(SWT.Selection, event -> {
            turned.clear();
            asked(true);
        });
        acceptance = new Combo(bar, SWT.READ_ONLY);
        acceptance.setToolTipText(Texts.of("findings.accepted.tip"));
        for (Acceptance each : Acceptance.values()) {
            acceptance.add(each.word());
        }
        acceptance.select(0);
        acceptance.addListener(SWT.Selection, event -> asked(false));
        words = new Text(bar, SWT.SEARCH | SWT.ICON_CANCEL);
        words.setMessage(Texts.of("findings.words"));
        words.setLayoutData(new RowData(150, SWT.DEFAULT));
        words.addListener(SWT.Modify, event -> asked(false));
        accept = new AcceptButton(bar, desk, () -> table == null ? List.of() : table.chosen());
        Button copy = new Button(bar, SWT.PUSH);
        copy.setText(Texts.of("findings.copy"));
        copy.setToolTipText(Texts.of("findings.copy.tip"));
        copy.addListener(SWT.Selection, event -> table.copy());
        Button export = new Button(bar, SWT.PUSH);
        export.setText(Texts.of("findings.export"));
        export.setToolTipText(Texts.of("findings.export.tip"));
        export.addListener(SWT.Selection, event -> askForFile());
        summary = new Label(bar, SWT.NONE);
    }

    private Question question() {
        Set<Sign> signs = EnumSet.noneOf(Sign.class);
        for (Sign sign : Sign.values()) {
            if (kinds[sign.ordinal()].getSelection()) {
                signs.add(sign);
            }
        }
        int chosen = volume.getSelectionIndex() <= 0 ? Question.ALL : volumes.get(volume.getSelectionIndex() - 1);
        return new Question(signs, chosen, Acceptance.values()[Math.max(0, acceptance.getSelectionIndex())], desk.records().accepted(), words.getText().toLowerCase(Locale.ROOT).strip(),
                Grouping.values()[Math.max(0, group.getSelectionIndex())], order, backwards, Set.copyOf(turned));
    }

    /** The findings of the open disk are others than before. */
    public void refresh() {
        turned.clear();
        Set<Integer> numbers = new TreeSet<>();
        OpenDisk open = desk.open();
        boolean outside = false;
        if (open != null) {
            for (Finding finding : open.listed()) {
                if (finding.volume() != null) {
                    numbers.add(finding.volume());
                } else {
                    outside = true;
                }
            }
        }
        volumes.clear();
        volume.removeAll();
        volume.add(Texts.of("findings.volume.all"));
        if (outside) {
            volumes.add(Question.OUTSIDE);
            volume.add(Texts.of("findings.volume.outside"));
        }
        for (int number : numbers) {
            volumes.add(number);
            volume.add(Texts.of("findings.volume.one", number));
        }
        volume.select(0);
        asked(false);
        layOut();
    }

    /** Other findings are accepted than before. */
    public void accepted() {
        asked(false);
    }

    /** Lays out what may have other sizes now. While the board is not to be seen it has no room; it is laid out when it comes. */
    private void layOut() {
        if (content.isVisible()) {
            content.layout(true, true);
        }
    }

    private void asked(boolean keep) {
        OpenDisk open = desk.open();
        Findings findings = open == null ? null : open.findings();
        Question question = question();
        if (keep) {
            FindingsMemory.keep(question);
        }
        int number = ++asked;
        List<Finding> all = findings == null ? List.of() : findings.all();
        if (all.size() <= AT_ONCE) {
            show(Rows.of(all, question), question);
            return;
        }
        worker.execute(() -> {
            Rows made = Rows.of(all, question);
            if (!content.isDisposed()) {
                content.getDisplay().asyncExec(() -> {
                    if (number == asked && !content.isDisposed()) {
                        show(made, question);
                    }
                });
            }
        });
    }

    private void show(Rows made, Question question) {
        rows = made;
        OpenDisk open = desk.open();
        table.show(open == null ? List.of() : rows.rows(), open, question, desk.finding());
        accept.update();
        if (open != null && open.findings() != null && desk.records().trouble() != null) {
            summary.setText(desk.records().trouble());
            summary.getParent().layout();
        } else if (open != null && open.findings() != null) {
            summary.setText(Texts.of("findings.summary", Numbers.grouped(rows.shown().size()), Numbers.grouped(open.listed().size()),
                    Numbers.grouped(open.findings().counts().passed())));
            summary.getParent().layout();
        }
    }

    private void turn(String key) {
        if (!turned.remove(key)) {
            turned.add(key);
        }
        asked(false);
    }

    private void sort(FindingColumn column) {
        backwards = order == column && !backwards;
        order = column;
        asked(true);
    }

    /** Gives the room that is left to the sentence, until a person chose widths. */
    private void widen() {
        if (content.isDisposed() || FindingsMemory.widthsKept()) {
            return;
        }
        int others = 0;
        for (FindingColumn column : FindingColumn.values()) {
            others += column == FindingColumn.WHAT ? 0 : column.width();
        }
        TableColumn what = table.control().getColumn(FindingColumn.WHAT.ordinal());
        what.setWidth(Math.max(FindingColumn.WHAT.width(), table.control().getClientArea().width - others - 4));
    }

    /** Keeps the widths that the columns have now; the window is closed. */
    public void close() {
        if (!table.control().isDisposed() && widthsChanged()) {
            FindingsMemory.keepWidths(table.control());
        }
    }

    private boolean widthsChanged() {
        if (FindingsMemory.widthsKept()) {
            return true;
        }
        for (FindingColumn column : FindingColumn.values()) {
            // the last column reports the room it fills, and the sentence was widened
            if (column != FindingColumn.WHAT && column != FindingColumn.CHECK
                    && table.control().getColumn(column.ordinal()).getWidth() != column.width()) {
                return true;
            }
        }
        return false;
    }

    private void askForFile() {
        OpenDisk open = desk.open();
        if (open == null || open.findings() == null) {
            return;
        }
        FileDialog dialog = new FileDialog(content.getShell(), SWT.SAVE);
        dialog.setText(Texts.of("findings.export.title"));
        dialog.setFilterExtensions(new String[] {"*.csv", "*.json"});
        dialog.setFilterNames(new String[] {"CSV", "JSON"});
        dialog.setFileName("findings.csv");
        dialog.setOverwrite(true);
        String chosen = dialog.open();
        if (chosen != null) {
            export(Path.of(chosen));
        }
    }

    /** Writes what is shown, by the ending of the name as JSON or CSV; what came of it stands beside the button. */
    public void export(Path file) {
        OpenDisk open = desk.open();
        List<Finding> shown = rows.shown();
        AcceptedFindings accepted = desk.records().accepted();
        worker.execute(() -> {
            String told;
            try {
                FindingsExport.write(file, shown, open.findings(), open.image().sectorSize(), accepted, open.path());
                told = Texts.of("findings.export.done", Numbers.grouped(shown.size()), String.valueOf(file));
            } catch (IOException e) {
                told = Texts.of("findings.export.failed", String.valueOf(file), String.valueOf(e.getMessage()));
            }
            String sentence = told;
            if (!content.isDisposed()) {
                content.getDisplay().asyncExec(() -> {
                    if (!content.isDisposed()) {
                        summary.setText(sentence);
                        layOut();
                    }
                });
            }
        });
    }
}
