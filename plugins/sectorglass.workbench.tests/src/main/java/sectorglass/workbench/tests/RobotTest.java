package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.CTabFolder;
import org.eclipse.swt.custom.CTabItem;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableItem;
import org.junit.jupiter.api.Test;

import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;

/** A robot that knows only what is written in the window finds both faults of a disk in at most twelve actions. */
class RobotTest {
    private static final int MOST = 12;
    /** BootIndicator of the first entry of the protective MBR (UEFI 2.10, 5.2.3): 0. */
    private static final long IN_MBR = 446;
    /** HeaderCRC32 of the primary GPT header (UEFI 2.10, 5.3.2), byte 16 of LBA 1. */
    private static final long IN_GPT = 512 + 16;
    private static final Pattern PLACE = Pattern.compile("Where\\s+LBA (\\d+), byte(?:s)? (\\d+)(?: to (\\d+))?");

    private int actions;

    @Test
    void findsOneFaultInTheMbrAndOneInTheGpt() throws IOException {
        Path folder = Files.createTempDirectory("robot");
        Path image = Demo.write(folder, Demo.Variant.GPT_SOUND).image();
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.seek(IN_MBR);
            file.write(0x7F);
            file.seek(IN_GPT);
            int stored = file.read();
            file.seek(IN_GPT);
            file.write(stored ^ 0x10);
        }
        Ui.open(image, OpenOptions.DEFAULT); // given on the command line
        TreeSet<Long> found = new TreeSet<>();
        tab("Findings");
        List<String> rows = Ui.get(() -> Arrays.stream(list().getItems()).map(item -> item.getText(1)).toList());
        assertTrue(!rows.isEmpty(), "the list of findings is empty");
        for (int row = 0; row < rows.size() && actions < MOST; row++) {
            choose(row);
            Matcher place = PLACE.matcher(meaning().replace("\u2009", ""));
            if (place.find()) {
                long first = Long.parseLong(place.group(1)) * 512 + Long.parseLong(place.group(2));
                long last = place.group(3) == null ? first : Long.parseLong(place.group(1)) * 512 + Long.parseLong(place.group(3));
                for (long planted : new long[] {IN_MBR, IN_GPT}) {
                    if (planted >= first && planted <= last && last - first < 64) {
                        found.add(planted);
                    }
                }
            }
        }
        assertEquals(new TreeSet<>(List.of(IN_MBR, IN_GPT)), found, "findings seen: " + rows);
        assertTrue(actions <= MOST, "actions: " + actions);
        System.out.println("the robot found both faults in " + actions + " actions");
    }

    /** Clicks on the tab with this word, unless its page is to be seen already. */
    private void tab(String word) {
        Ui.run(() -> {
            for (CTabFolder folder : Ui.all(CTabFolder.class)) {
                for (CTabItem item : folder.getItems()) {
                    if (item.getText().equals(word) && folder.getSelection() != item) {
                        actions++;
                        folder.setSelection(item);
                        Event event = new Event();
                        event.item = item;
                        folder.notifyListeners(SWT.Selection, event);
                    }
                }
            }
        });
        Ui.settle();
    }

    /** The table whose heads say What and Where. */
    private static Table list() {
        return Ui.all(Table.class).stream().filter(Table::isVisible).filter(table -> {
            List<String> heads = Arrays.stream(table.getColumns()).map(column -> column.getText()).toList();
            return heads.contains("What") && heads.contains("Where");
        }).findFirst().orElseThrow(() -> new AssertionError("no list of findings is to be seen"));
    }

    private void choose(int row) {
        actions++;
        Ui.run(() -> {
            TableItem item = list().getItem(row);
            list().setSelection(item);
            Event event = new Event();
            event.item = item;
            list().notifyListeners(SWT.Selection, event);
        });
        Ui.explained();
    }

    /** The text in the window that tells where something is. */
    private static String meaning() {
        return Ui.get(() -> Ui.all(StyledText.class).stream().filter(StyledText::isVisible).map(StyledText::getText)
                .filter(text -> text.contains("Where") && text.contains("Severity")).findFirst().orElse(""));
    }
}
