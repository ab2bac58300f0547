package sectorglass.workbench.model;

import java.util.OptionalLong;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import java.util.function.Function;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.workbench.pages.Pages;

/**
 * The open disk, the caret, the selection and the field at the caret. All methods are for the thread of the window; what takes time
 * runs on the worker and is told to the listeners later.
 */
public final class Desk extends Board {
    private final Executor worker;
    private final Executor window;
    private final Trail trail = new Trail();
    private Exam exam = Exam.NONE;
    /** Verdicts that are held back while an exam runs. */
    private Findings held;
    private OpenDisk open;
    private Decodings decodings;
    private Gloss gloss;
    private Pages pages;
    private long caret;
    private volatile ByteRange selection;
    private boolean own;
    private Explained explained;
    private FieldNode field;
    private Finding finding;
    /** Number of the last question; the worker reads it to leave out what nobody waits for. */
    private volatile long asked;
    private long answered;

    /**
     * An empty desk.
     *
     * @param worker runs one task after the other, off the window's thread
     * @param window runs a task on the window's thread, later
     */
    public Desk(Executor worker, Executor window) {
        super(worker, window);
        this.worker = worker;
        this.window = window;
    }

    /** The open disk, or null. */
    public OpenDisk open() {
        return open;
    }

    /** Shows another disk, or none; the former one is closed. */
    public void show(OpenDisk disk, FormatCatalogue catalogue) {
        OpenDisk former = open;
        openKept(disk == null ? null : disk.path());
        lay(disk, catalogue);
        if (former != null && (disk == null || former.image() != disk.image())) {
            worker.execute(former::close);
        }
    }

    /**
     * Shows the open disk as it looks with other read states. The former image stays open: both read the same files. The caret stays
     * where it is.
     */
    public void reread(OpenDisk disk, FormatCatalogue catalogue) {
        long stays = caret;
        lay(disk, catalogue);
        if (stays != caret) {
            goTo(stays, "");
        }
    }

    private void lay(OpenDisk disk, FormatCatalogue catalogue) {
        if (gloss != null) {
            gloss.close();
            pages.close();
        }
        open = disk;
        pages = disk == null ? null : new Pages(disk.image(), Pages.reader(), window, () -> tell(DeskListener::bytesReady));
        decodings = disk == null ? null : new Decodings(disk.disk(), catalogue);
        gloss = disk == null ? null : gloss(disk);
        caret = 0;
        selection = null;
        own = false;
        explained = null;
        field = null;
        finding = null;
        held = null;
        unmark();
        asked = asked + 1;
        trail.clear();
        tell(DeskListener::diskChanged);
        if (disk != null) {
            goTo(0, "");
        }
    }

    /** Takes over the verdicts of the checks; ignored where another disk lies on the desk by now. */
    public void judged(OpenDisk disk, Findings verdicts) {
        if (open == null || open.image() != disk.image()) {
            return;
        }
        if (exam.runs()) {
            held = verdicts;
            return;
        }
        lay(open.judged(verdicts));
    }

    /** Adds a remark to those on the open image; ignored where another one lies on the desk by now. */
    public void remarked(SectorImage image, String remark) {
        if (open != null && open.image() == image && !open.remarks().contains(remark)) {
            lay(open.remarked(remark));
        }
    }

    private void lay(OpenDisk judged) {
        open = judged;
        gloss.close();
        gloss = gloss(open);
        tell(DeskListener::findingsChanged);
    }

    /** The exam that runs. */
    public Exam exam() {
        return exam;
    }

    /** Begins an exam or ends it: verdicts are held back while one runs. */
    public void exam(Exam next) {
        exam = next;
        if (open != null && next.runs() && open.findings() != null) {
            Findings known = open.findings();
            finding = null;
            lay(OpenDisk.surveyed(open.path(), open.disk(), open.remarks()));
            held = known;
        } else if (open != null && !next.runs() && held != null) {
            Findings known = held;
            held = null;
            lay(open.judged(known));
        }
        tell(DeskListener::examChanged);
    }

    private Gloss gloss(OpenDisk disk) {
        return new Gloss(disk, decodings, worker, window, () -> tell(DeskListener::glossReady));
    }

    /** The fields of the open disk by place, or null. */
    public Gloss gloss() {
        return gloss;
    }

    /** The bytes of the open disk as they come, or null. */
    public Pages pages() {
        return pages;
    }

    /** Image byte of the caret. */
    public long caret() {
        return caret;
    }

    /** The selected bytes, or null. */
    public ByteRange selection() {
        return selection;
    }

    /** The structure at the caret once it is known, or null. */
    public Explained explained() {
        return explained;
    }

    /** The field at the caret once it is known, or null. */
    public FieldNode field() {
        return field;
    }

    /** Whether the structure at the caret is known by now, or known to be none. */
    public boolean settled() {
        return open == null || answered == asked;
    }

    /** The finding that was chosen last, or null. */
    public Finding finding() {
        return finding;
    }

    /** Where one has been. */
    public Trail trail() {
        return trail;
    }

    /** Moves the caret a step of the hand: no place in the trail of its own. An address outside is clamped. */
    public void move(long address) {
        place(address, null, null, false);
        trail.moved(caret);
    }

    /** Moves the caret and selects the bytes from the anchor to it, both included. */
    public void select(long anchor, long address) {
        long to = clamp(address);
        long from = clamp(anchor);
        place(to, new ByteRange(Math.min(from, to), Math.abs(to - from) + 1), null, true);
        trail.moved(caret);
    }

    /** Goes to a place that belongs into the trail. */
    public void goTo(long address, String by) {
        long to = clamp(address);
        trail.add(new Step(to, by));
        place(to, null, null, false);
    }

    /** Goes to bytes that belong into the trail, and selects them. */
    public void goTo(ByteRange bytes, String by) {
        long to = clamp(bytes.start());
        trail.add(new Step(to, by));
        place(to, bytes.length() > 0 ? bytes : null, null, true);
    }

    /** The selected bytes if they were selected by hand or found, not chosen as a field or finding; else null. */
    public ByteRange ownSelection() {
        return own && selection.length() > 1 ? selection : null;
    }

    /** Chooses a field of the structure that is shown, or of another one. */
    public void choose(FieldNode chosen) {
        ByteRange bytes = chosen.length() == 0 ? null : new ByteRange(chosen.firstByte(), chosen.length());
        place(chosen.firstByte(), bytes, chosen, false);
        trail.moved(caret);
    }

    /** Chooses a finding and goes to its bytes. */
    public void choose(Finding chosen) {
        finding = chosen;
        trail.add(new Step(clamp(chosen.where().start()), chosen.check()));
        ByteRange bytes = chosen.where().length() == 0 ? null : chosen.where();
        place(chosen.where().start(), bytes, null, false);
        tell(DeskListener::findingChosen);
    }

    /** Computes checksums of bytes on the worker and hands them over on the window's thread, unless the selection changed by then. */
    public void checksums(ByteRange bytes, Consumer<Checksums> then) {
        work(of -> Checksums.of(of.image(), bytes, () -> !bytes.equals(selection)), sums -> {
            if (sums != null && bytes.equals(selection)) {
                then.accept(sums);
            }
        });
    }

    /** Finds out on the worker which structure holds an image byte, and hands it over on the window's thread: null where none does. */
    public void explain(long address, Consumer<Explained> then) {
        Decodings here = decodings;
        work(of -> here.at(address).orElse(null), then);
    }

    /** Works something out of the open disk on the worker and hands it over on the window's thread, unless another disk is open by then. */
    public <T> void work(Function<OpenDisk, T> what, Consumer<T> then) {
        OpenDisk of = open;
        if (of == null) {
            return;
        }
        worker.execute(() -> {
            T result = what.apply(of);
            window.execute(() -> {
                if (open != null && of.image() == open.image()) {
                    then.accept(result);
                }
            });
        });
    }

    /** Goes to a step of the trail. */
    public void back(int index) {
        Step step = trail.go(index);
        place(step.address(), null, null, false);
    }

    /** Whether {@link #back()} leads anywhere. */
    public boolean canGoBack() {
        return trail.at() > 0;
    }

    /** Whether {@link #forward()} leads anywhere. */
    public boolean canGoForward() {
        return trail.at() < trail.steps().size() - 1;
    }

    /** Goes to the place before. */
    public void back() {
        if (canGoBack()) {
            back(trail.at() - 1);
        }
    }

    /** Goes to the place that one came back from. */
    public void forward() {
        if (canGoForward()) {
            back(trail.at() + 1);
        }
    }

    /** Image byte that the field's pointer means, if it has one that leads into the image. */
    public OptionalLong target(FieldNode node) {
        return open == null || node == null || node.link() == null ? OptionalLong.empty() : Targets.of(open, node);
    }

    /** Follows the pointer of the field at the caret; false where it has none that leads into the image. */
    public boolean follow() {
        OptionalLong to = target(field);
        if (to.isEmpty()) {
            return false;
        }
        goTo(to.getAsLong(), cover().hides(field) ? "" : field.label());
        return true;
    }

    /** Explains bytes by a structure that a person chose, until it is withdrawn or another disk is opened. */
    public void apply(Structure structure) {
        decodings.apply(structure);
        renew();
    }

    /** Takes the structure away that a person put over the caret; gives it, or null where there is none. */
    public Structure withdraw() {
        Structure there = open == null ? null : decodings.byHandAt(caret).orElse(null);
        if (there != null) {
            decodings.withdraw(there.range().start());
            renew();
        }
        return there;
    }

    private void renew() {
        gloss.close();
        gloss = gloss(open);
        explained = null;
        field = null;
        tell(DeskListener::glossReady);
        ask(null);
    }

    private long clamp(long address) {
        return open == null ? 0 : Math.max(0, Math.min(address, open.image().bytes() - 1));
    }

    private void place(long address, ByteRange bytes, FieldNode chosen, boolean selectedByHand) {
        caret = clamp(address);
        selection = bytes;
        own = selectedByHand && bytes != null;
        if (chosen != null && explained != null && explained.structure().range().contains(caret)) {
            field = chosen;
            asked = asked + 1;
            answered = asked;
            tell(DeskListener::caretMoved);
            tell(DeskListener::explained);
            return;
        }
        field = chosen != null ? chosen : explained == null ? null : explained.fieldAt(caret);
        tell(DeskListener::caretMoved);
        ask(chosen);
    }

    private void ask(FieldNode chosen) {
        if (open == null) {
            return;
        }
        long number = asked + 1;
        asked = number;
        long at = caret;
        Decodings here = decodings;
        worker.execute(() -> {
            if (number != asked) {
                return; // the caret went on
            }
            Explained found = here.at(at).orElse(null);
            window.execute(() -> {
                if (number == asked) {
                    answered = number;
                    explained = found;
                    field = chosen != null ? chosen : found == null ? null : found.fieldAt(at);
                    tell(DeskListener::explained);
                }
            });
        });
    }
}
