package sectorglass.workbench.parts;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;

import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.swt.widgets.Text;

import sectorglass.disk.Partition;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.recovery.ByteSearch;
import sectorglass.recovery.Needle;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.VirtualRows;
import sectorglass.workbench.opening.JobProgress;

/** Finds bytes, text and numbers, forward and back, in the image or the partition at the caret. Unread sectors are told of. */
public final class FindPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.find";
    /** Places that a list holds at most. */
    private static final int MOST = 10_000;

    private EmptyHint hint;
    private Composite content;
    private Text wanted;
    private Combo form;
    private Combo scope;
    private Label told;
    private Table places;
    private final List<Long> found = new ArrayList<>();
    private Needle last;
    private Job running;

    @Override
    void create(Composite parent) {
        hint = new EmptyHint(parent, "find.empty");
        content = new Composite(hint.parent(), SWT.NONE);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 8;
        grid.marginHeight = 4;
        content.setLayout(grid);
        Composite line = new Composite(content, SWT.NONE);
        line.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        GridLayout row = new GridLayout(7, false);
        row.marginWidth = 0;
        row.marginHeight = 0;
        line.setLayout(row);
        form = new Combo(line, SWT.READ_ONLY);
        for (FindForm each : FindForm.values()) {
            form.add(each.words());
        }
        form.select(0);
        wanted = new Text(line, SWT.BORDER);
        wanted.setMessage(Texts.of("find.example"));
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, true, false);
        wide.widthHint = 160;
        wanted.setLayoutData(wide);
        wanted.addListener(SWT.DefaultSelection, event -> go(true));
        scope = new Combo(line, SWT.READ_ONLY);
        scope.add(Texts.of("find.image"));
        scope.add(Texts.of("find.partition"));
        scope.select(0);
        button(line, "find.next", () -> go(true));
        button(line, "find.previous", () -> go(false));
        button(line, "find.all", this::all);
        button(line, "find.stop", () -> {
            if (running != null) {
                running.cancel();
            }
        });
        told = new Label(content, SWT.NONE);
        told.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        places = new Table(content, SWT.VIRTUAL | SWT.SINGLE | SWT.FULL_SELECTION);
        places.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        places.setHeaderVisible(true);
        new TableColumn(places, SWT.NONE).setText(Texts.of("findings.where"));
        new TableColumn(places, SWT.NONE).setText(Texts.of("find.byte"));
        places.getColumn(0).setWidth(220);
        places.getColumn(1).setWidth(260);
        places.addListener(SWT.SetData, event -> {
            TableItem item = (TableItem) event.item;
            long at = found.get(places.indexOf(item));
            int size = desk().open() == null ? 512 : desk().open().image().sectorSize();
            item.setText(new String[] {Numbers.place(at, size), Numbers.grouped(at) + " = 0x" + Numbers.hex(at, 1)});
        });
        places.addListener(SWT.Selection, event -> show(found.get(places.getSelectionIndex())));
    }

    private static void button(Composite line, String key, Runnable action) {
        Button made = new Button(line, SWT.PUSH);
        made.setText(Texts.of(key));
        made.addListener(SWT.Selection, event -> action.run());
    }

    private Optional<Needle> needle() {
        try {
            last = FindForm.values()[form.getSelectionIndex()].needle(wanted.getText());
            return Optional.of(last);
        } catch (IllegalArgumentException e) {
            told.setText(String.valueOf(e.getMessage()));
            return Optional.empty();
        }
    }

    /** The bytes looked at: all, or the partition at the caret. */
    private ByteRange range() {
        SectorImage image = desk().open().image();
        Optional<Partition> partition = scope.getSelectionIndex() == 0 ? Optional.empty()
                : desk().open().partitionAt(desk().caret() / image.sectorSize());
        if (partition.isEmpty()) {
            return new ByteRange(0, image.bytes());
        }
        long first = partition.get().range().first() * image.sectorSize();
        long end = Math.min(image.bytes(), partition.get().range().end() * image.sectorSize());
        return new ByteRange(first, end - first);
    }

    private void go(boolean forward) {
        Optional<Needle> needle = desk().open() == null ? Optional.empty() : needle();
        if (needle.isEmpty()) {
            return;
        }
        ByteRange range = range();
        long caret = Math.max(range.start(), Math.min(range.end(), desk().caret()));
        SectorImage image = desk().open().image();
        // a place found before the caret begins before it, though it may reach over it
        ByteSearch search = forward ? new ByteSearch(image, Math.min(range.end(), caret + 1), range.end())
                : new ByteSearch(image, range.start(), Math.min(range.end(), caret + needle.get().length() - 1));
        AtomicLong place = new AtomicLong(-1);
        start(progress -> {
            ByteSearch.Result result = forward ? search.forward(needle.get(), at -> stopAt(place, at), progress)
                    : search.backward(needle.get(), at -> stopAt(place, at), progress);
            return () -> {
                if (place.get() >= 0) {
                    show(place.get());
                    told.setText(Texts.of("find.found", Numbers.place(place.get(), image.sectorSize())));
                } else {
                    told.setText(Texts.of(forward ? "find.none.after" : "find.none.before") + unread(result));
                }
            };
        });
    }

    private static boolean stopAt(AtomicLong place, long at) {
        place.set(at);
        return false;
    }

    private void all() {
        Optional<Needle> needle = desk().open() == null ? Optional.empty() : needle();
        if (needle.isEmpty()) {
            return;
        }
        ByteRange range = range();
        ByteSearch search = new ByteSearch(desk().open().image(), range.start(), range.end());
        List<Long> hits = new ArrayList<>();
        start(progress -> {
            ByteSearch.Result result = search.forward(needle.get(), at -> {
                hits.add(at);
                return hits.size() < MOST;
            }, progress);
            return () -> {
                VirtualRows.clear(places);
                found.clear();
                found.addAll(hits);
                places.setItemCount(hits.size());
                told.setText((result.ended() ? Texts.of("find.count", Numbers.grouped(hits.size()))
                        : Texts.of("find.most", Numbers.grouped(MOST))) + unread(result));
            };
        });
    }

    private static String unread(ByteSearch.Result result) {
        return result.unreadSectors() == 0 ? "" : " " + Texts.of("find.unread", Numbers.grouped(result.unreadSectors()));
    }

    private void show(long at) {
        desk().goTo(new ByteRange(at, last.length()), Texts.of("by.find"));
    }

    /** Work that finds something and says what to show. */
    private interface Search {
        Runnable run(Progress progress);
    }

    private void start(Search search) {
        if (running != null) {
            running.cancel();
        }
        Display display = content.getDisplay();
        told.setText(Texts.of("find.running"));
        running = new Job(Texts.of("find.running")) {
            @Override
            protected IStatus run(IProgressMonitor monitor) {
                monitor.beginTask(getName(), IProgressMonitor.UNKNOWN);
                try {
                    Runnable shown = search.run(new JobProgress(monitor));
                    later(display, shown);
                    return Status.OK_STATUS;
                } catch (Progress.Stopped e) {
                    later(display, () -> told.setText(Texts.of("find.stopped")));
                    return Status.CANCEL_STATUS;
                }
            }
        };
        running.schedule();
    }

    private void later(Display display, Runnable shown) {
        if (!display.isDisposed()) {
            display.asyncExec(() -> {
                if (!content.isDisposed() && desk().open() != null) {
                    shown.run();
                }
            });
        }
    }

    @Override
    public void diskChanged() {
        if (running != null) {
            running.cancel();
        }
        VirtualRows.clear(places);
        found.clear();
        told.setText("");
        hint.show(content, desk().open() != null);
    }

    @Override
    public void setFocus() {
        if (desk().open() != null) {
            wanted.setFocus();
        } else {
            hint.parent().setFocus();
        }
    }
}
