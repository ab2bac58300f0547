package sectorglass.workbench.tests;

import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
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
        }
        Screenshots.theme(false);
    }
}
