package sectorglass.workbench.recovery.way;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

import org.eclipse.swt.SWT;
import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;
import org.eclipse.swt.custom.StyleRange;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;

import sectorglass.disk.way.Calculation;
import sectorglass.disk.way.Reading;
import sectorglass.disk.way.WayStep;
import sectorglass.image.ByteRange;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.recovery.Words;

/** One step of a way: what is looked for, the fields that are read, the arithmetic, where it leads. */
final class WayStepView {
    private static final String[] COLUMNS = {"field", "bytes", "value"};
    private static final int[] SHARES = {38, 34, 28};

    private final StyledText text;
    private final Table fields;
    private final StyledText sums;
    private List<Reading> readings = List.of();
    private Runnable again = () -> { };

    WayStepView(Composite parent, Consumer<ByteRange> light) {
        text = text(parent, "way.text");
        fields = new Table(parent, SWT.SINGLE | SWT.FULL_SELECTION | SWT.BORDER);
        fields.setHeaderVisible(true);
        GridData all = new GridData(SWT.FILL, SWT.FILL, true, true);
        all.heightHint = 90;
        fields.setLayoutData(all);
        for (String column : COLUMNS) {
            new TableColumn(fields, SWT.NONE).setText(Words.of("way.column." + column));
        }
        fields.addListener(SWT.Selection, event -> light.accept(readings.get(fields.getSelectionIndex()).where()));
        fields.addListener(SWT.Resize, event -> {
            for (int i = 0; i < SHARES.length; i++) {
                fields.getColumn(i).setWidth(fields.getClientArea().width * SHARES[i] / 100);
            }
        });
        sums = text(parent, "way.sums");
        Look.follow(fields, () -> again.run());
    }

    private static StyledText text(Composite parent, String key) {
        StyledText made = new StyledText(parent, SWT.WRAP | SWT.READ_ONLY | SWT.MULTI);
        made.setMargins(8, 6, 8, 6);
        made.setLineSpacing(3);
        made.setLayoutData(new GridData(SWT.FILL, SWT.BEGINNING, true, false));
        ((GridData) made.getLayoutData()).widthHint = 120;
        made.getAccessible().addAccessibleListener(new AccessibleAdapter() {
            @Override
            public void getName(AccessibleEvent event) {
                event.result = Words.of(key);
            }
        });
        return made;
    }

    void size() {
        text.setFont(Size.reading());
        sums.setFont(Size.words());
        fields.setFont(Size.words());
        again.run();
    }

    void clear() {
        again = () -> { };
        readings = List.of();
        text.setText("");
        sums.setText("");
        fields.removeAll();
    }

    void show(WayStep step, int sectorSize, boolean last) {
        readings = step.readings();
        again = () -> {
            text.setText(step.title() + "\n\n" + step.text());
            text.setStyleRange(new StyleRange(0, step.title().length(), null, null, SWT.BOLD));
            sums(step, sectorSize, last);
            text.getParent().layout(true, true);
        };
        fields.removeAll();
        for (Reading reading : readings) {
            TableItem item = new TableItem(fields, SWT.NONE);
            item.setText(new String[] {reading.name(), reading.hex(), reading.value()});
        }
        again.run();
    }

    private void sums(WayStep step, int sectorSize, boolean last) {
        StringBuilder words = new StringBuilder();
        List<StyleRange> styles = new ArrayList<>();
        for (Calculation sum : step.calculations()) {
            styles.add(new StyleRange(words.length(), sum.words().length(), Ink.of(Tone.QUIET), null));
            words.append(sum.words()).append('\n');
            styles.add(new StyleRange(words.length(), sum.numbers().length(), null, null, SWT.NORMAL));
            words.append(sum.numbers()).append(" = ").append(Numbers.grouped(sum.result())).append('\n');
        }
        String leads = step.stop() != null ? step.stop() : step.next() < 0 ? ""
                : Words.of(last ? "way.here" : "way.leads", Numbers.place(step.next(), sectorSize), Numbers.grouped(step.next()));
        styles.add(new StyleRange(words.length(), leads.length(), step.stop() == null ? null : Ink.of(Tone.WRONG), null, SWT.BOLD));
        words.append(leads);
        sums.setText(words.toString());
        styles.forEach(sums::setStyleRange);
    }
}
