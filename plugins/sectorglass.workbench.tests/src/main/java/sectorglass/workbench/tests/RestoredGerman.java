package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;

import org.eclipse.swt.custom.CTabFolder;
import org.eclipse.swt.custom.CTabItem;
import org.junit.jupiter.api.Test;

/** Finds the parts that {@link LeavingParts} left, under German names. */
class RestoredGerman {

    @Test
    void found() {
        Ui.until("the findings have a German name", () -> names().contains("Befunde"));
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
        Ui.until("the plan has a German name", () -> names().contains("Leseplan"));
        for (String name : List.of("Dateien", "Suche", "Kopien")) {
            assertTrue(tabs().contains(name), name + " in " + tabs());
        }
        for (String name : List.of("Files", "Read plan", "Search", "Copies", "Findings", "Disk")) {
            assertFalse(tabs().contains(name), name + " in " + tabs());
        }
    }

    /** Names on the tabs that the window shows. */
    static List<String> tabs() {
        return Ui.get(RestoredGerman::names);
    }

    private static List<String> names() {
        return Ui.all(CTabFolder.class).stream().filter(CTabFolder::isVisible).flatMap(folder -> Arrays.stream(folder.getItems())).map(CTabItem::getText).toList();
    }
}
