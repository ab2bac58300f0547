package sectorglass.workbench.recovery.drawing;

import java.util.List;
import java.util.function.ToLongFunction;

import org.eclipse.core.runtime.ILog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Label;
import org.eclipse.ui.PartInitException;

import sectorglass.image.SafeText;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.Totals;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.RecoverPerspective;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;
import sectorglass.workbench.recovery.files.FilesPart;

/** What was recovered of a volume as bars, by kind of file or by folder; a bar leads to its files. Counted off the window's thread. */
public final class DrawingPart extends RecoverPart {
    private Combo volumes;
    private Combo by;
    private Combo measure;
    private Button up;
    private Label where;
    private BarsCanvas bars;
    private WorkBar bar;
    private List<VolumeFiles> all = List.of();
    private Outcome outcome;
    private int folder;

    @Override
    protected void create(Composite parent) {
        Composite top = row(parent, 5);
        volumes = combo(top, "files.volume");
        volumes.addListener(SWT.Selection, event -> count(volumes.getSelectionIndex()));
        by = combo(top, "drawing.by.tip");
        by.setItems(Words.of("drawing.by.kind"), Words.of("drawing.by.folder"));
        by.select(0);
        by.addListener(SWT.Selection, event -> root());
        measure = combo(top, "drawing.measure.tip");
        measure.setItems(Words.of("drawing.bytes"), Words.of("drawing.files"));
        measure.select(0);
        measure.addListener(SWT.Selection, event -> draw());
        up = button(top, Words.of("drawing.up"), this::up);
        up.setToolTipText(Words.of("drawing.up.tip"));
        where = new Label(top, SWT.NONE);
        where.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        new Legend(parent).setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        bars = new BarsCanvas(parent, this::go, share -> into(share.folder()), this::up);
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.heightHint = 100;
        bars.setLayoutData(data);
        bar = new WorkBar(parent);
    }

    private static Combo combo(Composite parent, String tip) {
        Combo made = new Combo(parent, SWT.READ_ONLY);
        made.setToolTipText(Words.of(tip));
        return made;
    }

    @Override
    protected String purpose() {
        return Words.of("drawing.empty");
    }

    @Override
    protected void opened() {
        all = VolumeFiles.of(desk().open().disk());
        volumes.removeAll();
        for (VolumeFiles one : all) {
            String label = one.volume().info().label();
            volumes.add(one.number() + " \u00B7 " + one.volume().info().kind() + (label == null || label.isEmpty() ? "" : " \u00B7 " + SafeText.of(label)));
        }
        volumes.getParent().layout();
        if (all.isEmpty()) {
            closed();
            bar.say(Words.of("files.none"));
            return;
        }
        int largest = 0;
        for (int i = 1; i < all.size(); i++) {
            largest = size(all.get(i)) > size(all.get(largest)) ? i : largest;
        }
        volumes.select(largest);
        count(largest);
    }

    private static long size(VolumeFiles one) {
        return one.volume().info().bytes() == null ? 0 : one.volume().info().bytes();
    }

    @Override
    protected void closed() {
        bar.stop();
        outcome = null;
        draw();
    }

    private void count(int index) {
        VolumeFiles wanted = all.get(index);
        outcome = null;
        draw();
        bar.start(Words.of("drawing.counting"), progress -> Outcome.of(wanted, false, progress), found -> {
            outcome = found;
            root();
        });
    }

    private void root() {
        if (outcome != null) {
            into(outcome.tree().root());
        }
    }

    private void into(int entry) {
        folder = entry;
        draw();
    }

    private void up() {
        if (up.isEnabled()) {
            into(outcome.tree().parent(folder));
        }
    }

    private boolean byFolder() {
        return by.getSelectionIndex() == 1;
    }

    private void draw() {
        boolean bytes = measure.getSelectionIndex() == 0;
        ToLongFunction<Totals> of = bytes ? Totals::bytes : Totals::files;
        up.setEnabled(outcome != null && byFolder() && folder != outcome.tree().root());
        where.setText(up.isEnabled() ? outcome.tree().path(folder).replace("&", "&&") : "");
        if (outcome == null) {
            bars.show(List.of(), bytes);
            return;
        }
        Outcome from = outcome;
        boolean folders = byFolder();
        int entry = folder;
        bar.start(Words.of("drawing.counting"), progress -> folders ? Share.folders(from, entry, of) : Share.kinds(from, of), shares -> {
            bars.show(shares, bytes);
            String sum = Words.of(shares.isEmpty() ? "drawing.nothing" : folders ? "drawing.hint.folder" : "drawing.hint");
            long unread = from.unreadMetadata();
            bar.say(unread == 0 ? sum : Words.of("files.unread", Numbers.grouped(unread)) + "  " + sum);
        });
    }

    /** The drawing in words, a line per bar. */
    public List<String> lines() {
        return bars.shares().stream().map(share -> share.name() + ": " + share.words()).toList();
    }

    /** Shows the files of a share in Files. */
    private void go(Share share) {
        try {
            FilesPart files = (FilesPart) getSite().getPage().showView(RecoverPerspective.FILES);
            int number = outcome.volume().number();
            if (share.kind() != null) {
                files.showKind(number, share.kind());
            } else {
                files.showFolder(number, share.folder());
            }
        } catch (PartInitException e) {
            ILog.get().error("The files cannot be shown.", e);
        }
    }

    @Override
    public void setFocus() {
        if (outcome != null) {
            bars.setFocus();
        } else {
            super.setFocus();
        }
    }
}
