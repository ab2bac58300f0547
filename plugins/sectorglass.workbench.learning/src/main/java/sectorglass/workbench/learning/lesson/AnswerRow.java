package sectorglass.workbench.learning.lesson;

import java.util.ArrayList;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Text;

import sectorglass.disk.Repair;
import sectorglass.image.ByteRange;
import sectorglass.image.Overlay;
import sectorglass.image.Patch;
import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Task;
import sectorglass.verify.Finding;
import sectorglass.workbench.learning.LearnTexts;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.opening.Bench;

/** Where a step is answered: a field to type in, or what the reader has chosen on the desk; and the button that asks for judgement. */
final class AnswerRow {
    private final Desk desk = Bench.desk();
    private final Composite row;
    private final Text typed;
    private final Label done;
    private final Button check;
    private final Runnable judge;
    private Play play;
    private String ask = "";

    AnswerRow(Composite parent, Runnable judge) {
        this.judge = judge;
        row = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout(2, false);
        grid.marginWidth = 12;
        row.setLayout(grid);
        typed = new Text(row, SWT.BORDER);
        typed.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        typed.addListener(SWT.DefaultSelection, event -> judge.run());
        typed.getAccessible().addAccessibleListener(new AccessibleAdapter() {
            @Override
            public void getName(AccessibleEvent event) {
                event.result = LearnTexts.of("answer.name", ask);
            }
        });
        done = new Label(row, SWT.WRAP);
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, true, false);
        wide.widthHint = 80;
        done.setLayoutData(wide);
        check = new Button(row, SWT.PUSH);
        check.setText(LearnTexts.of("answer.check"));
        check.setToolTipText(LearnTexts.of("answer.check.tip"));
        check.addListener(SWT.Selection, event -> judge.run());
        Paper.of(row);
        Paper.of(done);
        size();
        Size.follow(row, this::size);
    }

    private void size() {
        typed.setFont(Size.reading());
        done.setFont(Size.words());
        check.setFont(Size.words());
        row.requestLayout();
    }

    Composite control() {
        return row;
    }

    /** The row of a step. */
    void show(Play playing, String question) {
        play = playing;
        ask = question;
        Task task = play.step().task();
        boolean asks = play.step().asks();
        boolean types = task instanceof Task.TypeNumber || task instanceof Task.TypeText;
        ((GridData) row.getLayoutData()).exclude = !asks;
        row.setVisible(asks);
        ((GridData) typed.getLayoutData()).exclude = !types;
        typed.setVisible(types);
        ((GridData) done.getLayoutData()).exclude = types;
        done.setVisible(!types);
        typed.setText("");
        if (task instanceof Task.TypeNumber number) {
            typed.setMessage(LearnTexts.of("answer.unit." + number.unit()));
        } else {
            typed.setMessage("");
        }
        moved();
        row.requestLayout();
    }

    /** Tells what would be judged now. */
    void moved() {
        if (play == null || play.lesson() == null || done.isDisposed() || desk.open() == null) {
            return;
        }
        String words = words(play.step().task());
        if (!words.equals(done.getText())) {
            done.setText(words);
            done.requestLayout();
        }
    }

    private String words(Task task) {
        int size = desk.open().image().sectorSize();
        if (task instanceof Task.ClickByte) {
            return LearnTexts.of("answer.caret", Numbers.place(desk.caret(), size));
        }
        if (task instanceof Task.SelectBytes) {
            ByteRange range = selected();
            return LearnTexts.of("answer.selected", Numbers.place(range.start(), size), Numbers.grouped(range.length()));
        }
        if (task instanceof Task.ChooseFinding) {
            Finding finding = play.chosen();
            return finding == null ? LearnTexts.of("answer.finding.none") : LearnTexts.of("answer.finding", SafeText.of(finding.what()).replace("&", "&&"));
        }
        if (task instanceof Task.CorrectField) {
            int count = changes().size();
            return count == 0 ? LearnTexts.of("answer.correct.none") : LearnTexts.of("answer.correct", count);
        }
        return "";
    }

    private ByteRange selected() {
        return desk.selection() == null ? new ByteRange(desk.caret(), 1) : desk.selection();
    }

    private List<Repair.Change> changes() {
        List<Repair.Change> all = new ArrayList<>();
        SectorImage image = desk.open() == null ? null : desk.open().image();
        while (image instanceof Overlay over) {
            List<Repair.Change> here = new ArrayList<>();
            for (Patch patch : over.patches()) {
                here.add(new Repair.Change(patch.start(), patch.bytes(), ""));
            }
            all.addAll(0, here);
            image = over.base();
        }
        return all;
    }

    /** The answer as it stands; null where nothing was done yet. */
    Answer answer() {
        Task task = play.step().task();
        if (task instanceof Task.ClickByte) {
            return new Answer.OnByte(desk.caret());
        }
        if (task instanceof Task.SelectBytes) {
            return new Answer.Selected(selected());
        }
        if (task instanceof Task.ChooseFinding) {
            Finding finding = play.chosen();
            return finding == null ? null : new Answer.Chosen(finding.check(), finding.where().start());
        }
        if (task instanceof Task.CorrectField) {
            return new Answer.Changed(changes());
        }
        return play.step().asks() ? new Answer.Typed(typed.getText()) : new Answer.Read();
    }

    /** The control that shall have the keyboard, or null where the step is answered elsewhere. */
    Control focus() {
        return typed.isVisible() ? typed : null;
    }

    /** Judgement is asked for, as the button does. */
    void press() {
        judge.run();
    }
}
