package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;

import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Shell;
import org.junit.jupiter.api.Test;

import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;
import sectorglass.workbench.commands.OpenImages;

/**
 * Random commands, keys and clicks over the demo disk and damaged images, without an error in the log and without a lost resource.
 * Properties: uitest.monkey (number of steps; without it 25 seconds, but at least 300 and at most 4,000 steps), uitest.seed.
 */
class MonkeyTest {
    private static final int STEPS_PER_DISK = 150;
    /** Steps that are done however slow the machine is. */
    private static final int LEAST = 300;
    private static final int MOST = 4_000;

    @Test
    void nothingBreaks() throws IOException {
        int steps = Integer.getInteger("uitest.monkey", 0);
        long seed = Long.getLong("uitest.seed", 20261125L);
        Random random = new Random(seed);
        List<String> before = Runner.logged();
        List<Path> damaged = DamagedDisks.make(random, steps > 0 ? 12 : 2);
        Display display = Ui.get(Display::getCurrent);
        Runnable[] closer = new Runnable[1];
        closer[0] = () -> {
            for (Shell shell : display.getShells()) {
                if (shell != Ui.window() && shell.isVisible() && !shell.getText().isEmpty()) {
                    shell.close();
                }
            }
            if (closer[0] != null) {
                display.timerExec(40, closer[0]);
            }
        };
        Ui.run(() -> display.timerExec(40, closer[0]));
        MonkeyHand hand = new MonkeyHand(random);
        int done = 0;
        long end = System.currentTimeMillis() + 25_000;
        try {
            while (steps > 0 ? done < steps : done < LEAST || done < MOST && System.currentTimeMillis() < end) {
                if (done % STEPS_PER_DISK == 0) {
                    open(random, damaged);
                }
                hand.step();
                done++;
                if (done % 20 == 0) {
                    Ui.settle();
                }
                assertEquals(before, Runner.logged(), "seed " + seed + ", step " + done + ": " + hand.last());
            }
        } catch (RuntimeException | AssertionError e) {
            throw new AssertionError("seed " + seed + ", step " + done + ": " + hand.last(), e);
        } finally {
            Ui.run(() -> closer[0] = null);
            Ui.run(() -> Ui.desk().show(null, null));
        }
        for (int i = 0; i < 3; i++) {
            System.gc();
            Ui.settle();
        }
        assertEquals(before, Runner.logged(), "seed " + seed + ", after " + done + " steps");
        System.out.println("monkey: " + done + " steps, seed " + seed + ", " + hand.counts());
    }

    private static void open(Random random, List<Path> damaged) {
        int which = random.nextInt(damaged.size() + 3);
        if (which < damaged.size()) {
            Ui.run(() -> OpenImages.open(damaged.get(which), OpenOptions.DEFAULT));
        } else {
            Demo.Variant variant = List.of(Demo.Variant.GPT, Demo.Variant.MBR, Demo.Variant.PARTLY_READ).get(which - damaged.size());
            Demo.Written written = Ui.demo(variant);
            Ui.run(() -> OpenImages.open(written.image(), OpenOptions.DEFAULT.withReadMap(written.readMap())));
        }
        // the checks run on while the monkey begins
        Ui.until("an image is open", () -> Ui.desk().open() != null);
    }
}
