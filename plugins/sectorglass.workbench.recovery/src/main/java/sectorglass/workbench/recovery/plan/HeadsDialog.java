package sectorglass.workbench.recovery.plan;

import java.io.IOException;
import java.nio.file.Path;
import java.util.function.Consumer;

import org.eclipse.jface.dialogs.IDialogConstants;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Spinner;
import org.eclipse.swt.widgets.Text;

import sectorglass.image.SectorRange;
import sectorglass.recovery.HeadZones;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.Words;

/** Asks which head reads which sectors, drawn along lanes or typed, which heads are weak, and how fast the drive is. */
final class HeadsDialog extends TitleAreaDialog {
    private static final int MOST = 16;

    private final long sectors;
    private final DriveWish before;
    private final Consumer<DriveWish> wanted;
    private HeadZones zones;
    private ZonesCanvas canvas;
    private Spinner heads;
    private Text first;
    private Text last;
    private Spinner head;
    private Text weak;
    private Text only;
    private Text speed;
    private Text seek;

    HeadsDialog(Shell shell, long sectors, DriveWish before, Consumer<DriveWish> wanted) {
        super(shell);
        this.sectors = sectors;
        this.before = before;
        this.wanted = wanted;
        this.zones = before.zones();
        setShellStyle(getShellStyle() | SWT.RESIZE);
    }

    @Override
    protected void configureShell(Shell shell) {
        super.configureShell(shell);
        shell.setText(Words.of("heads.title"));
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        setTitle(Words.of("heads.title"));
        setMessage(Words.of("heads.message"));
        Composite area = new Composite((Composite) super.createDialogArea(parent), SWT.NONE);
        area.setLayout(new GridLayout());
        area.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        Composite top = row(area, 4);
        label(top, "heads.count");
        heads = spinner(top, 2, MOST, zones.zones().isEmpty() ? 2 : Math.max(2, zones.zones().lastKey() + 1));
        heads.addListener(SWT.Selection, event -> show());
        button(top, "heads.load", this::load);
        button(top, "heads.none", () -> change(HeadZones.NONE));
        canvas = new ZonesCanvas(area, sectors, (lane, range) -> change(zones.with(lane, range)));
        canvas.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        Composite typed = row(area, 8);
        label(typed, "heads.from");
        first = text(typed, "0", 110);
        label(typed, "heads.to");
        last = text(typed, String.valueOf(sectors - 1), 110);
        label(typed, "heads.one");
        head = spinner(typed, 0, MOST - 1, 0);
        button(typed, "heads.give", () -> typed(true));
        button(typed, "heads.take", () -> typed(false));
        Composite wish = row(area, 4);
        label(wish, "heads.weak");
        weak = text(wish, words(before.weak()), 90);
        label(wish, "heads.only");
        only = text(wish, words(before.only()), 90);
        label(wish, "heads.speed");
        speed = text(wish, before.megabytes() > 0 ? plain(before.megabytes()) : "", 90);
        label(wish, "heads.seek");
        seek = text(wish, plain(before.seekMillis()), 90);
        for (Text field : new Text[] {weak, only, speed, seek}) {
            field.addListener(SWT.Modify, event -> check());
        }
        show();
        return area;
    }

    private static String words(java.util.List<Integer> numbers) {
        return numbers.toString().replaceAll("[\\[\\]]", "");
    }

    private static String plain(double number) {
        return number == Math.rint(number) ? String.valueOf((long) number) : String.valueOf(number);
    }

    private static Composite row(Composite parent, int columns) {
        Composite made = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout(columns, false);
        grid.marginWidth = 0;
        grid.marginHeight = 2;
        made.setLayout(grid);
        return made;
    }

    private static void label(Composite parent, String key) {
        new Label(parent, SWT.NONE).setText(Words.of(key));
    }

    private static Text text(Composite parent, String content, int width) {
        Text made = new Text(parent, SWT.BORDER);
        GridData data = new GridData();
        data.widthHint = width;
        made.setLayoutData(data);
        made.setText(content);
        return made;
    }

    private static Spinner spinner(Composite parent, int least, int most, int value) {
        Spinner made = new Spinner(parent, SWT.BORDER);
        made.setValues(Math.min(most, value), least, most, 0, 1, 4);
        return made;
    }

    private static void button(Composite parent, String key, Runnable action) {
        Button made = new Button(parent, SWT.PUSH);
        made.setText(Words.of(key));
        made.addListener(SWT.Selection, event -> action.run());
    }

    private void show() {
        if (!zones.zones().isEmpty() && zones.zones().lastKey() >= heads.getSelection()) {
            heads.setSelection(Math.min(MOST, zones.zones().lastKey() + 1));
        }
        canvas.show(zones, heads.getSelection());
        if (getShell() != null && canvas.getSize().y > 0 && canvas.getSize().y < canvas.computeSize(SWT.DEFAULT, SWT.DEFAULT).y) {
            getShell().setSize(getShell().getSize().x, getShell().getSize().y + canvas.computeSize(SWT.DEFAULT, SWT.DEFAULT).y - canvas.getSize().y);
        }
    }

    private void change(HeadZones changed) {
        zones = changed;
        show();
        check();
    }

    private void typed(boolean give) {
        try {
            long from = Long.parseLong(first.getText().strip());
            long to = Long.parseLong(last.getText().strip());
            if (from < 0 || to < from || to >= sectors) {
                throw new NumberFormatException();
            }
            SectorRange range = new SectorRange(from, to - from + 1);
            setErrorMessage(null);
            change(give ? zones.with(head.getSelection(), range) : zones.without(range));
        } catch (NumberFormatException e) {
            setErrorMessage(Words.of("heads.range", Numbers.grouped(sectors - 1)));
        }
    }

    private void load() {
        FileDialog dialog = new FileDialog(getShell(), SWT.OPEN);
        dialog.setFilterExtensions(new String[] {"*.csv", "*"});
        String file = dialog.open();
        if (file != null) {
            try {
                change(HeadZones.load(Path.of(file)));
            } catch (IOException e) {
                setErrorMessage(e.getMessage());
            }
        }
    }

    /** What stands in the fields, or null and a sentence about what is wrong. */
    private DriveWish check() {
        DriveWish wish = null;
        String wrong = null;
        try {
            String rate = speed.getText().strip().replace(',', '.');
            String time = seek.getText().strip().replace(',', '.');
            wish = new DriveWish(zones, DriveWish.heads(weak.getText()), DriveWish.heads(only.getText()), rate.isEmpty() ? 0 : Double.parseDouble(rate),
                    time.isEmpty() ? 0 : Double.parseDouble(time));
            wish.cost();
            if ((!wish.weak().isEmpty() || !wish.only().isEmpty()) && zones.zones().isEmpty()) {
                wrong = Words.of("heads.unknown");
            }
        } catch (IllegalArgumentException e) {
            wrong = Words.of("heads.number");
        }
        setErrorMessage(wrong);
        if (getButton(IDialogConstants.OK_ID) != null) {
            getButton(IDialogConstants.OK_ID).setEnabled(wrong == null);
        }
        return wrong == null ? wish : null;
    }

    @Override
    protected void createButtonsForButtonBar(Composite parent) {
        createButton(parent, IDialogConstants.OK_ID, Words.of("heads.keep"), true);
        createButton(parent, IDialogConstants.CANCEL_ID, IDialogConstants.CANCEL_LABEL, false);
    }

    @Override
    protected void okPressed() {
        DriveWish wish = check();
        if (wish != null) {
            super.okPressed();
            wanted.accept(wish);
        }
    }
}
