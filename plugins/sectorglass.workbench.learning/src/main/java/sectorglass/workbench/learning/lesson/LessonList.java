package sectorglass.workbench.learning.lesson;

import java.util.Locale;
import java.util.function.Consumer;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;

import sectorglass.practice.lesson.Lesson;
import sectorglass.workbench.learning.LearnTexts;
import sectorglass.workbench.look.Size;

/** All lessons, and how far the reader is with each. */
final class LessonList {
    private final Composite page;
    private final Label total;
    private final Table table;
    private final Button begin;
    private final Button again;
    private final Label problems;
    private final Consumer<Lesson> opens;
    private Shelf shelf;

    LessonList(Composite parent, Consumer<Lesson> opens) {
        this.opens = opens;
        page = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 10;
        grid.marginHeight = 8;
        page.setLayout(grid);
        Label purpose = new Label(page, SWT.WRAP);
        purpose.setText(LearnTexts.of("list.purpose"));
        purpose.setLayoutData(wide());
        total = new Label(page, SWT.WRAP);
        total.setLayoutData(wide());
        table = new Table(page, SWT.SINGLE | SWT.FULL_SELECTION | SWT.BORDER);
        table.setHeaderVisible(true);
        table.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        for (String key : new String[] {"list.lesson", "list.progress"}) {
            new TableColumn(table, SWT.NONE).setText(LearnTexts.of(key));
        }
        table.addListener(SWT.DefaultSelection, event -> open());
        table.addListener(SWT.Selection, event -> buttons());
        table.addListener(SWT.Resize, this::columns);
        Composite low = new Composite(page, SWT.NONE);
        GridLayout row = new GridLayout(2, false);
        row.marginWidth = 0;
        row.marginHeight = 0;
        low.setLayout(row);
        begin = new Button(low, SWT.PUSH);
        begin.addListener(SWT.Selection, event -> open());
        again = new Button(low, SWT.PUSH);
        again.setText(LearnTexts.of("list.forget"));
        again.setToolTipText(LearnTexts.of("list.forget.tip"));
        again.addListener(SWT.Selection, event -> forget());
        problems = new Label(page, SWT.WRAP);
        problems.setLayoutData(wide());
        size();
        Size.follow(page, this::size);
    }

    private static GridData wide() {
        GridData data = new GridData(SWT.FILL, SWT.BEGINNING, true, false);
        data.widthHint = 100;
        return data;
    }

    private void size() {
        table.setFont(Size.words());
        total.setFont(Size.words());
        columns(null);
    }

    private void columns(Event event) {
        int progress = Size.scaled(120);
        table.getColumn(1).setWidth(progress);
        table.getColumn(0).setWidth(Math.max(100, table.getClientArea().width - progress));
    }

    Composite control() {
        return page;
    }

    /** Shows the lessons and how far each is. */
    void show(Shelf all) {
        shelf = all;
        int chosen = Math.max(0, table.getSelectionIndex());
        table.removeAll();
        int steps = 0;
        int done = 0;
        for (Lesson lesson : shelf.all()) {
            int count = shelf.progress().count(lesson);
            steps += lesson.steps().size();
            done += count;
            TableItem item = new TableItem(table, SWT.NONE);
            item.setText(0, (table.getItemCount()) + ".  " + lesson.title().in(Locale.getDefault()));
            item.setText(1, count == lesson.steps().size() ? LearnTexts.of("list.done") : LearnTexts.of("list.count", count, lesson.steps().size()));
        }
        total.setText(LearnTexts.of("list.total", done, steps));
        if (table.getItemCount() > 0) {
            table.select(Math.min(chosen, table.getItemCount() - 1));
        }
        StringBuilder text = new StringBuilder();
        shelf.lessons().problems().forEach(problem -> text.append(text.isEmpty() ? LearnTexts.of("list.problems") + "\n" : "\n").append(problem));
        problems.setText(text.toString().replace("&", "&&"));
        buttons();
        page.layout(true, true);
    }

    private Lesson chosen() {
        int index = table.getSelectionIndex();
        return shelf == null || index < 0 ? null : shelf.all().get(index);
    }

    private void buttons() {
        Lesson lesson = chosen();
        begin.setEnabled(lesson != null);
        begin.setText(LearnTexts.of(lesson != null && shelf.progress().count(lesson) > 0 ? "list.continue" : "list.begin"));
        again.setEnabled(lesson != null && shelf.progress().count(lesson) > 0);
        begin.getParent().layout();
    }

    private void open() {
        if (chosen() != null) {
            opens.accept(chosen());
        }
    }

    private void forget() {
        shelf.forget(chosen());
        show(shelf);
    }

    void focus() {
        table.setFocus();
    }
}
