package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;

import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Text;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;
import sectorglass.practice.disk.PracticeFile;
import sectorglass.workbench.InspectPerspective;
import sectorglass.workbench.commands.OpenImages;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Exam;
import sectorglass.workbench.sectors.SectorsCanvas;

/** What serves a class: covered fields, the projector size, exams. */
class TeachingTest {
    private static final String LEARNING = "sectorglass.workbench.learning.";
    private static final String FINDINGS = "sectorglass.workbench.findings";
    private static final String MEANING = "sectorglass.workbench.meaning";
    /** The signature of the GPT header, UEFI 2.10, section 5.3.2. */
    private static final long HEADER = 512;

    private SectorsCanvas canvas;

    @BeforeEach
    void open() {
        RecoverTest.perspective(InspectPerspective.ID);
        Ui.open(Demo.Variant.GPT);
        canvas = Ui.canvas();
        Ui.run(() -> Ui.part(MEANING));
        Ui.run(() -> Ui.desk().goTo(HEADER, "typed"));
        Ui.explained();
        Ui.until("the gloss is there", () -> canvas.labels().stream().anyMatch(label -> label.startsWith("Signature")));
    }

    @AfterEach
    void back() {
        Ui.run(() -> {
            Ui.desk().cover().on(false);
            Size.large(false);
            if (Ui.desk().exam().runs()) {
                Ui.desk().exam(Exam.NONE);
            }
        });
    }

    private static String meaning() {
        return Ui.get(() -> Ui.all(shown(MEANING), StyledText.class).get(0).getText());
    }

    /** The face of a part, by the last word of its id. */
    private static Composite shown(String id) {
        Ui.part(id);
        return Ui.all(Composite.class).stream().filter(face -> id.endsWith("." + face.getData("sectorglass.part"))).findFirst().orElseThrow();
    }

    private static List<String> fields() {
        return Ui.get(() -> Ui.all(Tree.class).stream().filter(tree -> tree.getColumnCount() == 3).findFirst().map(Tree::getItems).stream()
                .flatMap(Arrays::stream).map(item -> item.getText(0) + "|" + item.getText(1) + "|" + item.getText(2)).toList());
    }

    @Test
    void coveredFieldsShowTheirBytesAlone() {
        List<String> plain = Ui.get(canvas::labels);
        byte[] picture = Ui.picture(canvas).data;
        assertTrue(meaning().startsWith("Signature"), meaning());
        Ui.command(LEARNING + "cover");
        Ui.settle();
        List<String> labels = Ui.get(canvas::labels);
        assertFalse(labels.isEmpty());
        assertTrue(labels.stream().allMatch("?"::equals), labels.toString());
        assertFalse(Arrays.equals(picture, Ui.picture(canvas).data), "the picture is the same");
        assertTrue(meaning().startsWith(Texts.of("cover.field")), meaning());
        assertFalse(meaning().contains("Signature"), meaning());
        assertTrue(meaning().contains("45 46 49 20 50 41 52 54"), "the bytes are seen: " + meaning());
        assertTrue(fields().stream().filter(field -> !field.startsWith(Texts.of("fields.gaps"))).allMatch("?||"::equals), fields().toString());
        assertFalse(Ui.get(() -> Ui.all(Label.class).stream().anyMatch(label -> label.isVisible() && label.getText().contains("Signature"))),
                "the line about the caret");
        Ui.command(LEARNING + "cover");
        Ui.settle();
        assertEquals(plain, Ui.get(canvas::labels));
        assertTrue(meaning().startsWith("Signature"), meaning());
    }

    @Test
    void fieldsAreUncoveredOneByOne() {
        Ui.command(LEARNING + "cover");
        Ui.run(() -> Ui.desk().goTo(HEADER + 100, "typed"));
        Ui.explained();
        Ui.command(LEARNING + "cover.next");
        Ui.explained();
        assertEquals(HEADER, Ui.desk().caret(), "the first field of the header is shown");
        assertTrue(meaning().startsWith("Signature"), meaning());
        assertEquals(1, Ui.get(canvas::labels).stream().filter(label -> !label.equals("?")).count(), Ui.get(canvas::labels).toString());
        Ui.command(LEARNING + "cover.next");
        Ui.explained();
        assertEquals(HEADER + 8, Ui.desk().caret(), "Revision follows Signature (UEFI 2.10, table 5-5)");
        Ui.run(() -> Ui.desk().goTo(HEADER + 24, "typed")); // MyLBA
        Ui.explained();
        assertTrue(meaning().startsWith(Texts.of("cover.field")), meaning());
        Ui.command(LEARNING + "cover.chosen");
        Ui.explained();
        assertTrue(meaning().startsWith("MyLBA"), meaning());
        assertEquals(3, Ui.get(canvas::labels).stream().filter(label -> !label.equals("?")).count());
        // all of them, one after the other, and none twice
        int all = FieldWalk.values(Ui.desk().explained().root()).size();
        for (int i = 3; i < all; i++) {
            Ui.command(LEARNING + "cover.next");
            Ui.explained();
            FieldNode field = Ui.desk().field();
            assertFalse(Ui.desk().cover().hides(field), field.path());
        }
        assertTrue(Ui.get(() -> Ui.desk().cover().next(Ui.desk().explained())).isEmpty(), "one more than there are fields");
        Ui.command(LEARNING + "cover.again");
        assertTrue(Ui.get(canvas::labels).stream().allMatch("?"::equals), Ui.get(canvas::labels).toString());
    }

    @Test
    void theProjectorSizeIsLargerAndNoByteIsCutOff() {
        int width = Ui.get(() -> canvas.cell(HEADER).width);
        int columns = canvas.columns();
        Tree tree = Ui.get(() -> Ui.all(Tree.class).stream().filter(t -> t.getColumnCount() == 3).findFirst().orElseThrow());
        int words = Ui.get(() -> tree.getFont().getFontData()[0].getHeight());
        int column = Ui.get(() -> tree.getColumn(1).getWidth());
        StyledText text = Ui.get(() -> Ui.all(shown(MEANING), StyledText.class).get(0));
        int prose = Ui.get(() -> text.getFont().getFontData()[0].getHeight());
        Ui.command(LEARNING + "projector");
        Ui.settle();
        assertTrue(Ui.get(() -> canvas.cell(Ui.desk().caret()).width) * 10 >= width * 14, "bytes");
        assertTrue(Ui.get(() -> tree.getFont().getFontData()[0].getHeight()) * 10 >= words * 14, "fields");
        assertTrue(Ui.get(() -> text.getFont().getFontData()[0].getHeight()) * 10 >= prose * 14, "meaning");
        long last = HEADER + canvas.columns() - 1;
        assertTrue(Ui.get(() -> canvas.cell(last).x + canvas.cell(last).width <= canvas.getClientArea().width), "the last byte of a row is seen");
        assertTrue(InstanceScope.INSTANCE.getNode("sectorglass.workbench").getBoolean("size.projector", false), "kept for the next start");
        Ui.command(LEARNING + "projector");
        Ui.settle();
        assertEquals(width, Ui.get(() -> canvas.cell(HEADER).width));
        assertEquals(columns, canvas.columns());
        assertEquals(words, Ui.get(() -> tree.getFont().getFontData()[0].getHeight()));
        assertEquals(column, Ui.get(() -> tree.getColumn(1).getWidth()), 1);
    }

    @Test
    void anExamHoldsVerdictsBackUntilItIsEnded() {
        int listed = Ui.desk().open().listed().size();
        assertTrue(listed > 0);
        answer(LEARNING + "exam.begin", null);
        assertEquals(Exam.HERE, Ui.desk().exam());
        assertEquals("HERE", InstanceScope.INSTANCE.getNode("sectorglass.workbench").get("exam", ""));
        assertNull(find(FINDINGS), "Findings is closed");
        assertNull(find(MEANING), "Meaning is closed");
        assertEquals(0, Ui.desk().open().listed().size());
        assertTrue(sentence(FINDINGS).contains("exam"), sentence(FINDINGS));
        assertTrue(sentence(MEANING).contains("exam"), sentence(MEANING));
        // another disk does not end it
        Ui.run(() -> Ui.desk().show(null, null));
        Ui.run(() -> OpenImages.open(Ui.demo(Demo.Variant.WIPED).image(), OpenOptions.DEFAULT));
        Ui.until("the disk is open", () -> Ui.desk().open() != null);
        Ui.explained();
        assertEquals(0, Ui.desk().open().listed().size());
        answer(LEARNING + "exam.end", null);
        assertEquals(Exam.NONE, Ui.desk().exam());
        Ui.until("the verdicts are shown", () -> Ui.desk().open().findings() != null && !Ui.desk().open().listed().isEmpty());
        assertNotNull(find(FINDINGS));
    }

    @Test
    void aPracticeDiskBeginsAnExamThatAsksForTheWord() throws IOException {
        Path image = Ui.demo(Demo.Variant.GPT_SOUND).image();
        new PracticeFile("A1", 1, true, "answer.json", "task.html").write(image);
        try {
            Ui.run(() -> OpenImages.open(image, OpenOptions.DEFAULT));
            Ui.until("the exam began", () -> Ui.desk().exam() == Exam.SHEET && Ui.desk().open().path().equals(image));
        } finally {
            Files.delete(PracticeFile.of(image));
        }
        assertEquals(0, Ui.desk().open().listed().size());
        assertTrue(sentence(FINDINGS).contains("task sheet"), sentence(FINDINGS));
        answer(LEARNING + "exam.end", "");
        assertEquals(Exam.SHEET, Ui.desk().exam(), "a blank word does not end it");
        answer(LEARNING + "exam.end", "end");
        assertEquals(Exam.NONE, Ui.desk().exam());
    }

    private static IViewPart find(String id) {
        return Ui.get(() -> PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().findView(id));
    }

    /** The sentence that a part shows instead of its content. */
    private static String sentence(String id) {
        return Ui.get(() -> Ui.all(shown(id), Label.class).stream().filter(label -> label.isVisible() && !label.getText().isBlank())
                .map(Label::getText).findFirst().orElse(""));
    }

    /** Runs a command that opens a dialog, types a word where one is asked for, and presses the default button, or Cancel where that is off. */
    private static void answer(String command, String word) {
        Ui.run(() -> {
            Display display = Display.getCurrent();
            Shell window = Ui.window();
            display.timerExec(50, new Runnable() {
                @Override
                public void run() {
                    for (Shell shell : display.getShells()) {
                        if (shell != window && shell.isVisible() && shell.getText().equals("Exam")) {
                            if (word != null) {
                                Ui.all(shell, Text.class).get(0).setText(word);
                            }
                            Button yes = shell.getDefaultButton();
                            if (yes.isEnabled()) {
                                yes.notifyListeners(SWT.Selection, new Event());
                            } else {
                                shell.close();
                            }
                            return;
                        }
                    }
                    display.timerExec(50, this);
                }
            });
        });
        Ui.command(command);
        Ui.settle();
    }

}
