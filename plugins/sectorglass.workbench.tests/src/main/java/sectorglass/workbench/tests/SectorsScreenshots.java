package sectorglass.workbench.tests;

import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.recovery.Job.Mark;
import sectorglass.workbench.marks.MarksPart;
import sectorglass.workbench.places.Offsets;
import sectorglass.workbench.sectors.Density;
import sectorglass.workbench.sectors.Shown;

/** Pictures of the sectors, marks and comparisons; see {@link Screenshots}. */
class SectorsScreenshots {

    @Test
    void scenes() throws java.io.IOException {
        Screenshots.size();
        for (boolean dark : new boolean[] {false, true}) {
            String theme = Screenshots.theme(dark);
            Ui.open(Demo.Variant.GPT);
            long cluster = Ui.desk().open().disk().partitions().get(2).volume().address("cluster", 2).orElseThrow();
            Ui.run(() -> Ui.canvas().show(Shown.DEFAULT.with(Density.MARKED).withColumns(24).with(Offsets.PARTITION).withHex(false)));
            Screenshots.place(cluster - 200, "sectors-places-" + theme);
            Ui.run(() -> Ui.canvas().show(Shown.DEFAULT));
            marks(theme);
            Ui.run(() -> Ui.desk().goTo(512, "typed"));
            Ui.explained();
            Ui.command("sectorglass.workbench.compare.backup");
            Ui.explained();
            Ui.command("sectorglass.workbench.compare.next");
            Screenshots.shoot("compare-" + theme);
        }
        Screenshots.theme(false);
    }

    private static void marks(String theme) {
        Ui.run(() -> {
            while (Ui.desk().marks().canUndo()) {
                Ui.desk().marks().undo();
            }
            Ui.desk().marks().add(new Mark(512 + 16, 4, "header checksum", "Does not fit the entries; compare the backup."));
            Ui.desk().marks().add(new Mark(512 + 72, 8, "where entries begin", null));
            Ui.desk().marks().add(new Mark(68_200_448L, 1024, "record 40 by hand", "Looks moved by one cluster."));
            Ui.part(MarksPart.ID);
        });
        Screenshots.place(512 + 72, "marks-" + theme);
    }
}
