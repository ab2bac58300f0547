package sectorglass.workbench.recovery.states;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.image.ReadStateSources;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.Work;
import sectorglass.workbench.recovery.Words;

/** Puts the open image on the desk again with other read states: surveyed first, then judged. */
public final class Reread {

    private Reread() {
    }

    /** Begins. For the thread of the window. */
    public static void start(OpenDisk open, ReadStateSources sources, List<String> remarks, Consumer<String> failed) {
        start(open, ((OpenImage) open.image()).withStates(sources), remarks, failed);
    }

    /**
     * Begins, with an image made from the open one. For the thread of the window.
     *
     * @param image over the same files
     */
    public static void start(OpenDisk open, OpenImage image, List<String> remarks, Consumer<String> failed) {
        List<String> all = new ArrayList<>(open.remarks());
        all.addAll(remarks);
        new Work<>(Words.of("states.applying"), progress -> OpenDisk.surveyed(open.path(), survey(image, open.disk(), progress), all), surveyed -> {
            if (Bench.desk().open() == null || Bench.desk().open().image() != open.image()) {
                return; // another disk lies on the desk by now
            }
            Bench.desk().reread(surveyed, Bench.catalogue());
            new Work<>(Words.of("states.checking"), progress -> judge(surveyed.disk(), progress),
                    findings -> Bench.desk().judged(surveyed, findings), failed).schedule();
        }, failed).schedule();
    }

    private static Disk survey(OpenImage image, Disk known, Progress progress) {
        return Survey.ofProviders().disk(image, known.others(), progress);
    }

    private static Findings judge(Disk disk, Progress progress) {
        return Survey.ofProviders().verify(disk, Level.QUICK, RuleBook.ofProviders(Locale.getDefault()), progress);
    }
}
