package sectorglass.workbench.recovery.proposals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Repair;
import sectorglass.disk.Survey;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.propose.HandEdit;
import sectorglass.recovery.propose.Proposal;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.Words;
import sectorglass.workbench.recovery.Work;

/**
 * What lies over the open image: a proposal that is shown, and changes by hand with undo and redo. Each change surveys and checks the image
 * anew off the window's thread and lays the result on the desk. Changes by hand are kept in the job file. For the thread of the window.
 */
public final class Corrections implements DeskListener {
    private static final String KEY = "edits";
    private static Corrections only;

    private final List<Runnable> listeners = new CopyOnWriteArrayList<>();
    private final List<Edit> edits = new ArrayList<>();
    private OpenDisk bare;
    private SectorImage base;
    private int done;
    private Proposal shown;
    private Work<?> running;
    private String trouble;

    /**
     * A change by hand with what depends on it.
     *
     * @param field its name, for people
     * @param changes all bytes of it
     */
    public record Edit(String field, List<Repair.Change> changes) { }

    /** What the work found. */
    private record Result(OpenDisk disk, Findings findings) { }

    private Corrections() {
        Bench.desk().add(this);
        diskChanged();
    }

    /** The one of this workbench. */
    public static Corrections get() {
        if (only == null) {
            only = new Corrections();
        }
        return only;
    }

    /** Adds what is to be told of changes. */
    public void add(Runnable listener) {
        listeners.add(listener);
    }

    /** Removes it. */
    public void remove(Runnable listener) {
        listeners.remove(listener);
    }

    @Override
    public void diskChanged() {
        OpenDisk open = Bench.desk().open();
        SectorImage now = open == null ? null : ChangeRows.base(open.image());
        if (now != base) {
            SectorImage former = base;
            boolean covered = former != null && (shown != null || done > 0);
            base = now;
            bare = open;
            shown = null;
            edits.clear();
            done = 0;
            trouble = null;
            load();
            if (covered) {
                former.close(); // the desk closed the overlay only
            }
        }
        tell();
    }

    /** The image without anything over it, or null. */
    public SectorImage base() {
        return base;
    }

    /** The proposal that is shown, or null. */
    public Proposal shown() {
        return shown;
    }

    /** Changes by hand that are on. */
    public List<Edit> on() {
        return List.copyOf(edits.subList(0, done));
    }

    /** All bytes of the changes by hand that are on, in their order. */
    public List<Repair.Change> handChanges() {
        return on().stream().flatMap(edit -> edit.changes().stream()).toList();
    }

    /** Whether there is a change to take back. */
    public boolean canUndo() {
        return done > 0;
    }

    /** Whether there is a change to put on again. */
    public boolean canRedo() {
        return done < edits.size();
    }

    /** Changes put on and those that redo brings back. */
    public int[] counts() {
        return new int[] {done, edits.size() - done};
    }

    /** Whether the checks run. */
    public boolean busy() {
        return running != null;
    }

    /** Why the job file could not be written or read, or null. */
    public String trouble() {
        return trouble;
    }

    /** Shows a proposal on the desk, or none. */
    public void show(Proposal proposal) {
        shown = proposal;
        lay();
    }

    /**
     * Puts new bytes over the image as it is shown.
     *
     * @param field name of the field, for people
     * @param follow whether checksums and copies that depend on it follow
     */
    public void change(String field, long firstByte, byte[] bytes, boolean follow) {
        Repair.Change change = new Repair.Change(firstByte, bytes, HandEdit.why(Locale.getDefault()));
        SectorImage seen = seen();
        SectorImage of = base;
        new Work<>(Words.of("proposals.judging"), progress -> {
            List<Repair.Change> all = new ArrayList<>(List.of(change));
            if (follow) {
                all.addAll(HandEdit.dependents(seen, all, Locale.getDefault()));
            }
            return new Edit(field, List.copyOf(all));
        }, edit -> {
            if (of == base) {
                put(edit);
            }
        }, why -> {
            trouble = why;
            tell();
        }).schedule();
    }

    private void put(Edit edit) {
        edits.subList(done, edits.size()).clear();
        edits.add(edit);
        done++;
        save();
        lay();
    }

    /** Takes the last change back. */
    public void undo() {
        if (canUndo()) {
            done--;
            save();
            lay();
        }
    }

    /** Puts the last one on again. */
    public void redo() {
        if (canRedo()) {
            done++;
            save();
            lay();
        }
    }

    /** The image as it is shown. */
    public SectorImage seen() {
        SectorImage image = shown == null ? base : shown.over(base);
        return done == 0 ? image : HandEdit.over(image, handChanges());
    }

    private void lay() {
        SectorImage seen = seen();
        SectorImage of = base;
        OpenDisk known = bare;
        long caret = Bench.desk().caret();
        if (running != null) {
            running.cancel();
        }
        Work<?>[] self = new Work<?>[1];
        Work<Result> work = new Work<>(Words.of("proposals.judging"), progress -> judged(seen, known, progress), result -> {
            if (running == self[0]) {
                running = null;
                if (of == base) {
                    Bench.desk().reread(OpenDisk.surveyed(known.path(), result.disk().disk(), known.remarks()), Bench.catalogue());
                    Bench.desk().judged(Bench.desk().open(), result.findings());
                    Bench.desk().goTo(caret, "");
                }
            }
            tell();
        }, why -> {
            if (running == self[0]) {
                running = null;
            }
            tell();
        });
        self[0] = work;
        running = work;
        work.schedule();
        tell();
    }

    private static Result judged(SectorImage seen, OpenDisk known, Progress progress) {
        Survey survey = Survey.ofProviders();
        Disk disk = survey.disk(seen, known.disk().others(), progress);
        Findings findings = survey.verify(disk, Level.QUICK, RuleBook.ofProviders(Locale.getDefault()), progress);
        return new Result(OpenDisk.surveyed(known.path(), disk, known.remarks()), findings);
    }

    private void tell() {
        listeners.forEach(Runnable::run);
    }

    private void save() {
        if (bare == null || bare.path() == null) {
            return;
        }
        List<Map<String, Object>> all = new ArrayList<>();
        for (int i = 0; i < edits.size(); i++) {
            Map<String, Object> one = new LinkedHashMap<>();
            one.put("field", edits.get(i).field());
            one.put("on", i < done);
            one.put("ranges", edits.get(i).changes().stream().map(change -> Map.of("firstByte", change.firstByte(), "new",
                    HexFormat.of().formatHex(change.bytes()), "why", change.why())).toList());
            all.add(one);
        }
        try {
            JobFile.change(JobFile.beside(bare.path()), job -> job.withOther(KEY, all.isEmpty() ? null : all));
            trouble = null;
        } catch (IOException e) {
            trouble = Words.of("proposals.job", e.getMessage());
        }
    }

    /** Changes kept in the job file: those that were on are put on again by redo, so that nothing is shown that nobody asked for now. */
    private void load() {
        Path file = bare == null || bare.path() == null ? null : JobFile.beside(bare.path());
        if (file == null || !Files.exists(file)) {
            return;
        }
        try {
            Object kept = JobFile.open(file).job().other().get(KEY);
            if (kept instanceof List<?> list) {
                for (Object one : list) {
                    if (one instanceof Map<?, ?> map && map.get("ranges") instanceof List<?> ranges) {
                        edits.add(new Edit(String.valueOf(map.get("field")), ranges.stream().map(this::change).toList()));
                    }
                }
            }
        } catch (IOException | RuntimeException e) {
            edits.clear();
            trouble = Words.of("proposals.job", e.getMessage());
        }
    }

    private Repair.Change change(Object any) {
        Map<?, ?> map = (Map<?, ?>) any;
        long first = ((Number) map.get("firstByte")).longValue();
        byte[] bytes = HexFormat.of().parseHex((String) map.get("new"));
        if (first < 0 || bytes.length == 0 || first > base.bytes() - bytes.length) {
            throw new IllegalArgumentException("a change at byte " + first + " does not lie in the image");
        }
        return new Repair.Change(first, bytes, String.valueOf(map.get("why")));
    }
}
