package sectorglass.workbench.recovery.states;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.eclipse.jface.dialogs.IDialogConstants;
import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.swt.widgets.Text;

import sectorglass.image.Filler;
import sectorglass.image.FillerFinder;
import sectorglass.image.ImageException;
import sectorglass.image.OpenImage;
import sectorglass.image.ReadMap;
import sectorglass.image.ReadState;
import sectorglass.image.ReadStateSources;
import sectorglass.image.ReadStateSources.Kind;
import sectorglass.image.SectorRanges;
import sectorglass.image.TextLog;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;

/** Takes read states from a text log, an accepted filler, or accepted holes, with a preview of what the log would mean. */
public final class ImportDialog extends TitleAreaDialog {
    private static final int LINES = 50;

    private final OpenDisk open;
    private final OpenImage image;
    private Text file;
    private LogFields fields;
    private Table preview;
    private Table offers;
    private WorkBar bar;
    private List<Filler> fillers = List.of();
    private SectorRanges holes = SectorRanges.EMPTY;

    /** For an open disk whose image is an {@link OpenImage}. */
    public ImportDialog(Shell shell, OpenDisk open) {
        super(shell);
        this.open = open;
        this.image = (OpenImage) open.image();
        setShellStyle(getShellStyle() | SWT.RESIZE | SWT.MAX);
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        getShell().setText(Words.of("states.title"));
        setTitle(Words.of("states.title"));
        setMessage(Words.of("states.message"));
        Composite area = new Composite((Composite) super.createDialogArea(parent), SWT.NONE);
        area.setLayout(new GridLayout());
        area.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        Composite line = new Composite(area, SWT.NONE);
        line.setLayout(new GridLayout(2, false));
        line.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        file = new Text(line, SWT.BORDER);
        file.setMessage(Words.of("states.file"));
        file.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        file.addListener(SWT.Modify, event -> show());
        Button browse = new Button(line, SWT.PUSH);
        browse.setText(Words.of("states.choose"));
        browse.addListener(SWT.Selection, event -> choose());
        fields = new LogFields(area, this::show);
        preview = table(area, 150, "states.line", "states.start", "states.length", "states.state", "states.fields", "states.problem");
        offers = new Table(area, SWT.CHECK | SWT.BORDER | SWT.FULL_SELECTION);
        columns(offers, 80, "states.offer", "states.share");
        offers.getColumn(0).setWidth(560);
        offers.getColumn(1).setWidth(280);
        offers.addListener(SWT.Selection, event -> show());
        bar = new WorkBar(area);
        bar.start(Words.of("states.looking"), progress -> {
            holes = image.holes().orElse(SectorRanges.EMPTY);
            return FillerFinder.find(image, FillerFinder.SAMPLES, Locale.getDefault(), progress);
        }, this::offer);
        return area;
    }

    private static Table table(Composite parent, int height, String... keys) {
        Table made = new Table(parent, SWT.FULL_SELECTION | SWT.BORDER);
        columns(made, height, keys);
        return made;
    }

    private static void columns(Table made, int height, String... keys) {
        made.setHeaderVisible(true);
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.heightHint = height;
        data.widthHint = 760;
        made.setLayoutData(data);
        int[] widths = {60, 110, 100, 90, 220, 300};
        for (int i = 0; i < keys.length; i++) {
            TableColumn column = new TableColumn(made, SWT.LEFT);
            column.setText(Words.of(keys[i]));
            column.setWidth(widths[i]);
        }
    }

    private void choose() {
        FileDialog dialog = new FileDialog(getShell(), SWT.OPEN);
        dialog.setText(Words.of("states.title"));
        String chosen = dialog.open();
        if (chosen != null) {
            file.setText(chosen);
        }
    }

    private void offer(List<Filler> found) {
        fillers = found;
        for (Filler filler : fillers) {
            new TableItem(offers, SWT.NONE).setText(new String[] {Words.of("states.filler", filler.words()),
                Words.of("states.of", Numbers.grouped(filler.count()), Numbers.grouped(filler.looked()))});
        }
        if (!holes.isEmpty()) {
            new TableItem(offers, SWT.NONE).setText(new String[] {Words.of("states.holes"), Words.of("states.sectors", Numbers.grouped(holes.count()))});
        }
        bar.say(Words.of(offers.getItemCount() == 0 ? "states.nooffer" : "states.careful"));
    }

    /** Shows how the first lines would be read. */
    private void show() {
        preview.removeAll();
        setErrorMessage(null);
        boolean usable = false;
        try {
            if (!file.getText().isBlank()) {
                for (TextLog.Line line : fields.log().preview(Path.of(file.getText().strip()), LINES, Locale.getDefault())) {
                    String state = line.state() == null ? "" : Words.of("readstate." + line.state().word());
                    new TableItem(preview, SWT.NONE).setText(new String[] {(line.problem() == null ? "" : "\u25C6 ") + line.number(),
                        line.start() < 0 ? "" : Numbers.grouped(line.start()), line.start() < 0 ? "" : Numbers.grouped(line.length()), state,
                        String.join(" \u2502 ", line.fields()), line.problem() == null ? "" : line.problem()});
                    usable |= line.state() != null;
                }
            }
        } catch (ImageException | IllegalArgumentException e) {
            setErrorMessage(e.getMessage());
        }
        boolean accepted = java.util.Arrays.stream(offers.getItems()).anyMatch(TableItem::getChecked);
        if (getButton(IDialogConstants.OK_ID) != null) {
            getButton(IDialogConstants.OK_ID).setEnabled(file.getText().isBlank() ? accepted : usable);
        }
    }

    @Override
    protected void createButtonsForButtonBar(Composite parent) {
        createButton(parent, IDialogConstants.OK_ID, Words.of("states.apply"), true).setEnabled(false);
        createButton(parent, IDialogConstants.CANCEL_ID, Words.of("states.cancel"), false);
    }

    /** What comes out of the sources. */
    private record Taken(OpenImage image, List<String> remarks) { }

    @Override
    protected void okPressed() {
        Path log = file.getText().isBlank() ? null : Path.of(file.getText().strip());
        TextLog reading = log == null ? null : fields.log();
        List<Filler> accepted = new ArrayList<>();
        for (int i = 0; i < fillers.size(); i++) {
            if (offers.getItem(i).getChecked()) {
                accepted.add(fillers.get(i));
            }
        }
        boolean withHoles = offers.getItemCount() > fillers.size() && offers.getItem(fillers.size()).getChecked();
        bar.start(Words.of("states.loading"), progress -> {
            OpenImage known = image;
            List<String> remarks = new ArrayList<>();
            if (log != null) {
                OpenImage.Logged logged = known.withLog(log, reading, Locale.getDefault(), progress);
                remarks.addAll(logged.remarks());
                known = logged.image();
            }
            ReadStateSources sources = known.states();
            for (Filler filler : accepted) {
                sources = sources.with(Kind.FILLER, filler.words(), ReadMap.of(filler.ranges(image, progress), ReadState.UNREAD));
            }
            if (withHoles) {
                sources = sources.with(Kind.HOLES, "holes", ReadMap.of(holes, ReadState.UNREAD));
            }
            return new Taken(known.withStates(sources), remarks);
        }, taken -> {
            Shell parent = (Shell) getShell().getParent();
            Reread.start(open, taken.image(), taken.remarks(), why -> {
                if (why != null) {
                    MessageDialog.openError(parent, Words.of("states.title"), why);
                }
            });
            close();
        });
    }

    @Override
    public boolean close() {
        if (bar != null) {
            bar.stop();
        }
        return super.close();
    }
}
