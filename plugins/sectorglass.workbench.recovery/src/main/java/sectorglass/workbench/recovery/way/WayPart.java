package sectorglass.workbench.recovery.way;

import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.IntConsumer;

import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Label;

import sectorglass.disk.way.WayStep;
import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.way.Way;
import sectorglass.report.way.WaySheet;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.model.Marked;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;

/** A way to a file: one step at a time; its bytes light up in Sectors, the fields read in it are listed. */
public final class WayPart extends RecoverPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.recovery.way";

    private Label title;
    private Label where;
    private WayStepView view;
    private Button previous;
    private Button next;
    private Button sheet;
    private WorkBar bar;
    private Way way;
    private SectorImage image;
    private int index;

    @Override
    protected void create(Composite parent) {
        Composite head = row(parent, 2);
        title = new Label(head, SWT.WRAP);
        title.setFont(JFaceResources.getBannerFont());
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, true, false);
        wide.widthHint = 120;
        title.setLayoutData(wide);
        where = new Label(head, SWT.NONE);
        view = new WayStepView(parent, this::light);
        Composite foot = row(parent, 4);
        sheet = button(foot, Words.of("way.sheet"), this::ask);
        sheet.setToolTipText(Words.of("way.sheet.tip"));
        bar = new WorkBar(foot);
        previous = button(foot, Words.of("way.previous"), () -> go(index - 1));
        previous.setToolTipText(Words.of("way.previous.tip"));
        next = button(foot, Words.of("way.next"), () -> go(index + 1));
        next.setToolTipText(Words.of("way.next.tip"));
        size();
        Size.follow(parent, this::size);
        nothing();
    }

    /** Lets the keys of the steps of a lesson walk here, too: as a number of steps on or back. */
    @Override
    public <T> T getAdapter(Class<T> type) {
        if (type == IntConsumer.class) {
            IntConsumer walk = steps -> go(index + steps);
            return type.cast(walk);
        }
        return super.getAdapter(type);
    }

    private void size() {
        where.setFont(Size.words());
        previous.setFont(Size.words());
        next.setFont(Size.words());
        view.size();
        where.getParent().getParent().layout(true, true);
    }

    @Override
    protected String purpose() {
        return Words.of("way.empty");
    }

    @Override
    protected void opened() {
        if (way != null && image != desk().open().image()) {
            nothing();
        }
    }

    @Override
    protected void closed() {
        nothing();
    }

    private void nothing() {
        way = null;
        image = null;
        title.setText(Words.of("way.none"));
        where.setText("");
        view.clear();
        previous.setEnabled(false);
        next.setEnabled(false);
        sheet.setEnabled(false);
    }

    /** Shows a way of the open disk from its first step on. */
    public void show(Way found) {
        way = found;
        image = desk().open().image();
        title.setText(Words.of("way.title", SafeText.of(way.path().isEmpty() ? "/" : way.path())).replace("&", "&&"));
        sheet.setEnabled(true);
        go(0);
    }

    private void go(int wanted) {
        if (way == null || wanted < 0 || wanted >= way.steps().size()) {
            return;
        }
        index = wanted;
        WayStep step = way.steps().get(index);
        where.setText(Words.of("way.step", index + 1, way.steps().size()));
        previous.setEnabled(index > 0);
        next.setEnabled(index < way.steps().size() - 1);
        view.show(step, way.sectorSize(), index == way.steps().size() - 1);
        where.getParent().layout();
        if (step.where().length() > 0) {
            long first = step.where().start() / way.sectorSize();
            desk().mark(new Marked(SectorRanges.of(new SectorRange(first, (step.where().end() - 1) / way.sectorSize() - first + 1)), step.title()));
            light(step.readings().isEmpty() ? step.where() : step.readings().get(0).where());
        }
    }

    /** Lights bytes up. */
    private void light(ByteRange bytes) {
        desk().goTo(bytes, Words.of("way.by", index + 1));
    }

    private void ask() {
        FileDialog dialog = new FileDialog(getSite().getShell(), SWT.SAVE);
        dialog.setText(Words.of("way.sheet.title"));
        dialog.setFilterExtensions(new String[] {"*.html", "*.pdf"});
        dialog.setFileName(Words.of("way.sheet.name") + ".html");
        String chosen = dialog.open();
        if (chosen != null) {
            write(Path.of(chosen));
        }
    }

    private void write(Path file) {
        Way written = way;
        String name = image.name();
        bar.start(Words.of("way.sheet.writing"), progress -> {
            try {
                new WaySheet(written, name, Locale.getDefault()).write(file);
                return true;
            } catch (FileAlreadyExistsException e) {
                return false;
            }
        }, done -> {
            if (done) {
                bar.say(Words.of("way.sheet.done", file.getFileName()));
            } else {
                MessageDialog.openInformation(getSite().getShell(), Words.of("way.sheet.title"), Words.of("way.sheet.exists", file));
            }
        });
    }

    @Override
    public void setFocus() {
        if (way != null) {
            (next.isEnabled() ? next : previous).setFocus();
        } else {
            super.setFocus();
        }
    }
}
