package sectorglass.workbench.tests;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;
import java.util.stream.LongStream;
import java.util.stream.Stream;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.Text;

import sectorglass.decode.FieldNode;
import sectorglass.image.ByteRange;
import sectorglass.image.Overlay;
import sectorglass.image.SectorImage;
import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.LessonRun;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.TextPart;
import sectorglass.recovery.propose.FieldValue;
import sectorglass.recovery.propose.HandEdit;
import sectorglass.verify.Finding;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.sectors.SectorsCanvas;

/** A robot that plays a lesson in the window as a reader does: with the mouse in the sectors, by typing, by the keys of the lesson. */
final class Learner {
    static final String LEARNING = "sectorglass.workbench.learning.";

    private static final int MOST_FIELDS = 40;

    private final Lesson lesson;
    private LessonRun run;

    Learner(Lesson lesson) {
        this.lesson = lesson;
    }

    /** The face of the part Lessons. On the thread of the window. */
    static Composite face() {
        return Ui.all(Composite.class).stream().filter(face -> "lessons".equals(face.getData("sectorglass.part"))).findFirst().orElseThrow();
    }

    /** Shows the list of lessons; its rows. */
    static Table list() {
        Ui.command(LEARNING + "perspective");
        Ui.until("the lessons are listed", () -> !Ui.all(face(), Table.class).isEmpty() && Ui.all(face(), Table.class).get(0).getItemCount() > 0);
        Table table = Ui.get(() -> Ui.all(face(), Table.class).get(0));
        if (!Ui.get(table::isVisible)) {
            press("\u2039");
        }
        Ui.until("the list is shown", table::isVisible);
        return table;
    }

    /** Opens a lesson from the list, and waits for a step of it. */
    void open(int row, int step) {
        Table table = list();
        Ui.run(() -> {
            table.select(row);
            table.notifyListeners(SWT.DefaultSelection, new Event());
        });
        shown(step);
    }

    /** Opens a lesson from the list and walks to a step of it. */
    static void open(Lesson lesson, int step) {
        Learner learner = new Learner(lesson);
        int row = sectorglass.practice.lesson.Lessons.ofProviders(null).all().stream().map(Lesson::id).toList().indexOf(lesson.id());
        Table table = list();
        Ui.run(() -> {
            table.select(row);
            table.notifyListeners(SWT.DefaultSelection, new Event());
        });
        Ui.until("a step is shown", () -> !where().isEmpty());
        learner.shown(Ui.get(Learner::number));
        while (Ui.get(Learner::number) != step) {
            Ui.command(LEARNING + (Ui.get(Learner::number) < step ? "step.next" : "step.previous"));
            learner.shown(Ui.get(Learner::number));
        }
    }

    /** Index of the step that is shown. */
    private static int number() {
        return Integer.parseInt(where().split(" ")[1]) - 1;
    }

    /** Waits until a step is shown and its disk is judged. */
    void shown(int step) {
        Ui.until(lesson.id() + ": step " + (step + 1) + " is on the page", () -> where().startsWith(words("Step", "Schritt") + " " + (step + 1) + " "));
        Ui.until(lesson.id() + ": the disk of the lesson is open", () -> Ui.desk().open() != null && Ui.desk().open().findings() != null
                && Ui.desk().open().path().getFileName().toString().equals(lesson.disk() + ".img") && !(Ui.desk().open().image() instanceof Overlay));
        if (run == null || run.disk().image() != Ui.desk().open().image()) {
            run = new LessonRun(lesson, Ui.desk().open().disk(), Bench.catalogue(), RuleBook.ofProviders(Locale.getDefault()));
        }
        String text = TextPart.plain(run.text(lesson.steps().get(step).text()));
        Ui.until(lesson.id() + "/" + lesson.steps().get(step).id() + " shows its text: " + text, () -> texts().get(0).contains(text) && texts().get(1).isEmpty());
        Ui.explained();
    }

    LessonRun run() {
        return run;
    }

    static String words(String english, String german) {
        return Locale.getDefault().getLanguage().equals("de") ? german : english;
    }

    private static String where() {
        return Ui.all(face(), Label.class).stream().map(Label::getText).filter(text -> text.matches("(Step|Schritt) \\d+ .*")).findFirst().orElse("");
    }

    /** Text of the step, and what was said to the answer. On the thread of the window. */
    static List<String> texts() {
        return Ui.all(face(), StyledText.class).stream().map(StyledText::getText).toList();
    }

    /** Presses the visible button whose label begins so. */
    static void press(String label) {
        Ui.run(() -> Ui.all(face(), Button.class).stream().filter(b -> b.isVisible() && b.getText().startsWith(label)).findFirst()
                .orElseThrow(() -> new AssertionError("no button " + label)).notifyListeners(SWT.Selection, new Event()));
        Ui.settle();
    }

    /** Answers a step wrongly; the explanation that came. */
    String wrong(Step step) {
        Answer right = run.solution(step);
        Answer wrong = candidates(right).filter(answer -> !run.judge(step, answer).right()).findFirst()
                .orElseThrow(() -> new AssertionError("no wrong answer to " + lesson.id() + "/" + step.id()));
        give(wrong);
        return said(words("Not yet.", "Noch nicht."), step);
    }

    /** Answers a step rightly; what was said. */
    String right(Step step) {
        give(run.solution(step));
        return said("\u2713", step);
    }

    private String said(String begins, Step step) {
        Ui.until(lesson.id() + "/" + step.id() + " is judged: " + begins, () -> texts().get(1).startsWith(begins));
        return Ui.get(() -> texts().get(1)).replaceFirst("^[^\n]*\n*", "");
    }

    private Stream<Answer> candidates(Answer right) {
        long bytes = run.disk().image().bytes();
        int sector = run.disk().image().sectorSize();
        if (right instanceof Answer.OnByte at) {
            return LongStream.of(at.imageByte() + sector, at.imageByte() - sector, at.imageByte() - 1, 0, sector).filter(b -> b >= 0 && b < bytes)
                    .mapToObj(Answer.OnByte::new);
        }
        if (right instanceof Answer.Selected selected) {
            return Stream.of(new Answer.Selected(new ByteRange(selected.range().start(), selected.range().length() + 1)),
                    new Answer.Selected(new ByteRange(selected.range().start() + 1, selected.range().length())));
        }
        if (right instanceof Answer.Typed typed) {
            return Stream.of(typed.text().matches("(0x)?[0-9A-Fa-f]+") ? "7" : "nothing", "8", "0x77777", "?").map(Answer.Typed::new);
        }
        if (right instanceof Answer.Chosen) {
            return Stream.concat(Ui.desk().open().listed().stream().map(f -> (Answer) new Answer.Chosen(f.check(), f.where().start())), Stream.of(new Answer.Read()));
        }
        return Stream.of(new Answer.Changed(List.of()));
    }

    private void give(Answer answer) {
        if (answer instanceof Answer.OnByte at) {
            SectorsCanvas canvas = Ui.canvas();
            Ui.click(canvas, at.imageByte()); // the click itself is the answer
            return;
        }
        if (answer instanceof Answer.Selected selected) {
            Ui.run(() -> Ui.desk().select(selected.range().start(), selected.range().end() - 1));
        } else if (answer instanceof Answer.Typed typed) {
            Ui.run(() -> Ui.all(face(), Text.class).stream().filter(Text::isVisible).findFirst().orElseThrow().setText(typed.text()));
        } else if (answer instanceof Answer.Chosen chosen) {
            Finding finding = Ui.desk().open().listed().stream()
                    .filter(f -> f.check().equals(chosen.check()) && f.where().start() == chosen.firstByte()).findFirst().orElseThrow();
            Ui.run(() -> Ui.desk().choose(finding));
        } else if (answer instanceof Answer.Changed changed && !changed.changes().isEmpty()) {
            change(changed);
        }
        Ui.settle();
        Ui.command(LEARNING + "step.check");
    }

    /** Types new values, field by field, into the dialog that F2 opens, until the image is as the answer wants it; checksums follow. */
    private void change(Answer.Changed changed) {
        SectorImage wanted = HandEdit.over(run.disk().image(), changed.changes());
        for (int fields = 0; fields < MOST_FIELDS; fields++) {
            SectorImage now = Ui.desk().open().image();
            OptionalLong at = changed.changes().stream().flatMapToLong(change -> LongStream.range(change.firstByte(), change.range().end()))
                    .filter(b -> now.window(b, 1).raw(0, 1)[0] != wanted.window(b, 1).raw(0, 1)[0]).findFirst();
            if (at.isEmpty()) {
                return;
            }
            type(at.getAsLong(), wanted);
            Ui.until("the change lies over the image", () -> Ui.desk().open().image() instanceof Overlay && Ui.desk().open().image() != now
                    && Ui.desk().open().findings() != null);
            Ui.explained();
        }
        throw new AssertionError("more fields than " + MOST_FIELDS + " had to be changed");
    }

    private static void type(long at, SectorImage wanted) {
        Shell dialog = ProposalsTest.changeDialog(at);
        FieldNode field = Ui.get(() -> Ui.desk().field());
        FieldValue value = Ui.get(() -> FieldValue.of(field, Ui.desk().explained().root(), Ui.desk().explained().window()));
        byte[] bytes = wanted.window(field.firstByte(), (int) field.length()).raw(0, (int) field.length());
        String text = texts(bytes).filter(typed -> fits(value, typed, bytes)).findFirst()
                .orElseThrow(() -> new AssertionError("no text gives " + Arrays.toString(bytes) + " for " + field.path()));
        Ui.run(() -> {
            Ui.all(dialog, Text.class).stream().filter(t -> (t.getStyle() & SWT.READ_ONLY) == 0).findFirst().orElseThrow().setText(text);
            RecoverTest.press(dialog, "OK");
        });
    }

    private static Stream<String> texts(byte[] wanted) {
        long little = 0;
        long big = 0;
        for (int i = 0; i < wanted.length && i < 8; i++) {
            little |= (wanted[i] & 0xFFL) << 8 * i;
            big = big << 8 | wanted[i] & 0xFF;
        }
        return Stream.of(Long.toUnsignedString(little), Long.toUnsignedString(big), java.util.HexFormat.ofDelimiter(" ").formatHex(wanted));
    }

    private static boolean fits(FieldValue value, String typed, byte[] wanted) {
        try {
            return Arrays.equals(value.bytes(typed), wanted);
        } catch (IllegalArgumentException e) {
            return false;
        }
    }
}
