package sectorglass.workbench.recovery.search;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.SashForm;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Text;

import sectorglass.disk.Disk;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.recovery.ContentLook;
import sectorglass.recovery.ContentSampler;
import sectorglass.recovery.FoundState;
import sectorglass.recovery.FoundVolume;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.LostSearch;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchStore;
import sectorglass.recovery.SearchTexts;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.model.FoundRange;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;

/** Lost structures: volumes found, what they stand on and why, and what an unknown disk looks like. */
public final class SearchPart extends RecoverPart {
    private final SearchTexts texts = new SearchTexts(Locale.getDefault());
    private EntropyCanvas entropy;
    private FoundTree tree;
    private Text reasons;
    private Button search;
    private Button again;
    private Button content;
    private WorkBar bar;
    private Disk disk;
    private JobFile job;
    private SearchResult result;
    private ContentLook look;

    @Override
    protected void create(Composite parent) {
        entropy = new EntropyCanvas(parent, texts, this::goTo);
        SashForm sash = new SashForm(parent, SWT.HORIZONTAL);
        sash.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        tree = new FoundTree(sash, texts, this::explain, this::goTo);
        reasons = new Text(sash, SWT.MULTI | SWT.READ_ONLY | SWT.WRAP | SWT.V_SCROLL | SWT.BORDER);
        sash.setWeights(72, 28);
        Composite low = row(parent, 4);
        search = button(low, Words.of("search.start"), () -> start(false));
        again = button(low, Words.of("search.again"), () -> start(true));
        content = button(low, Words.of("search.content"), this::content);
        search.setToolTipText(Words.of("search.start.tip"));
        again.setToolTipText(Words.of("search.again.tip"));
        content.setToolTipText(Words.of("search.content.tip"));
        bar = new WorkBar(low);
    }

    @Override
    protected String purpose() {
        return Words.of("search.empty");
    }

    @Override
    protected void opened() {
        closed();
        disk = desk().open().disk();
        job = jobFile(desk().open().path());
        SearchStore store = new SearchStore(job);
        SearchResult known = store.result().filter(r -> r.bytes() == disk.image().bytes() && r.sectorSize() == disk.image().sectorSize()).orElse(null);
        if (known != null) {
            show(known);
        } else if (store.position() > 0) {
            bar.say(Words.of("search.goon", percent(store.position(), disk.image())));
        } else {
            bar.say(Words.of("search.offer"));
        }
        enable();
    }

    /** The job beside the image; null where it cannot be read: then nothing is kept. */
    private static JobFile jobFile(Path image) {
        try {
            return image == null ? null : JobFile.open(JobFile.beside(image));
        } catch (IOException e) {
            return null;
        }
    }

    @Override
    protected void closed() {
        bar.stop();
        disk = null;
        job = null;
        result = null;
        look = null;
        tree.show(null, null, 512);
        entropy.show(null);
        reasons.setText("");
        desk().found(List.of());
        enable();
    }

    private void enable() {
        search.setEnabled(disk != null);
        again.setEnabled(disk != null && result != null);
        content.setEnabled(disk != null);
    }

    private static long percent(long position, SectorImage image) {
        return (long) (position * 100.0 / Math.max(1, image.bytes()));
    }

    private void start(boolean anew) {
        Disk of = disk;
        JobFile keep = job;
        if (of == null) {
            return;
        }
        String name = Words.of("search.running");
        bar.start(name, progress -> {
            if (anew) {
                new SearchStore(keep).forget();
            }
            return LostSearch.of(of, keep, shown(progress, name));
        }, this::show);
    }

    /** Shows on the line how far the work is, a few times a second. */
    private Progress shown(Progress progress, String name) {
        Display display = tree.control().getDisplay();
        long[] last = {System.nanoTime()};
        return new Progress() {
            @Override
            public boolean cancelled() {
                return progress.cancelled();
            }

            @Override
            public void at(String what, long done, long total) {
                progress.at(what, done, total);
                long now = System.nanoTime();
                if (total > 0 && now - last[0] > 250_000_000L && !display.isDisposed()) {
                    last[0] = now;
                    display.asyncExec(() -> {
                        if (bar.busy()) {
                            bar.say(Words.of("search.at", name, texts.of("work." + what.replace(' ', '-')), (long) (done * 100.0 / total)));
                        }
                    });
                }
            }
        };
    }

    private void content() {
        Disk of = disk;
        if (of != null) {
            String name = Words.of("search.looking");
            bar.start(name, progress -> ContentSampler.of(of.image(), shown(progress, name)), found -> {
                look = found;
                entropy.show(found);
                tree.show(result, found, disk.image().sectorSize());
                bar.say(Words.of("search.looked", found.repeats().size(), found.texts().size()));
            });
        }
    }

    private void show(SearchResult found) {
        result = found;
        tree.show(found, look, found.sectorSize());
        desk().found(marks(found));
        long present = found.volumes().stream().filter(v -> v.state() == FoundState.PRESENT).count();
        StringBuilder said = new StringBuilder(found.volumes().isEmpty() ? texts.of(found.unreadSectors() > 0 ? "none.unread" : "none")
                : Words.of("search.done", found.volumes().size(), present, found.candidates().size()));
        found.remarks().forEach(r -> said.append("  ").append(texts.of(r)));
        bar.say(said.toString());
        enable();
    }

    private List<FoundRange> marks(SearchResult found) {
        List<FoundRange> marks = new ArrayList<>();
        for (FoundVolume volume : found.volumes()) {
            SectorRange range = volume.sectors(found.sectorSize()).orElse(null);
            if (range != null) {
                marks.add(new FoundRange(range, volume.state() == FoundState.PRESENT, Words.of("search.mark", volume.kind(),
                        Numbers.grouped(range.first()), Numbers.grouped(range.count()), texts.state(volume.state()))));
            }
        }
        return marks;
    }

    private void explain(String text) {
        reasons.setText(text);
    }

    private void goTo(long firstByte, long length) {
        if (disk != null && firstByte >= 0 && firstByte < disk.image().bytes()) {
            long count = Math.max(1, Math.min(Math.min(length, 4096), disk.image().bytes() - firstByte));
            desk().goTo(new sectorglass.image.ByteRange(firstByte, count), Words.of("search.by"));
        }
    }

    @Override
    public void setFocus() {
        if (disk != null) {
            tree.control().setFocus();
        } else {
            super.setFocus();
        }
    }
}
