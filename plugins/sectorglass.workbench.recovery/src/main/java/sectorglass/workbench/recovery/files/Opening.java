package sectorglass.workbench.recovery.files;

import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import sectorglass.disk.FileTree;
import sectorglass.image.Progress;
import sectorglass.recovery.opening.FileTests;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.workbench.recovery.Words;

/** Results of file tests by volume and entry, kept while the disk is open. For the thread of the window. */
final class Opening {
    private final Map<Integer, Map<Integer, TestResult>> known = new HashMap<>();

    /** Forgets everything: another disk, or other read states. */
    void clear() {
        known.clear();
    }

    /**
     * Tests entries and all below them; off the window's thread.
     *
     * @param chosen entries; the whole volume where it is empty
     */
    static TestResult[] run(FileVolume volume, FileTree tree, List<Integer> chosen, Progress progress) {
        Outcome outcome = Outcome.of(new VolumeFiles(volume.number(), volume.volume(), volume.files()), false, progress);
        BitSet wanted = new BitSet();
        for (int top : chosen.isEmpty() ? List.of(tree.root()) : chosen) {
            tree.walk(top, (entry, depth) -> {
                wanted.set(entry);
                return true;
            });
        }
        return FileTests.ofProviders().testAll(outcome, wanted::get, Math.max(1, Runtime.getRuntime().availableProcessors() - 1), progress);
    }

    /** Keeps results; gives how many of each answer there are. */
    int[] keep(FileVolume volume, TestResult[] results) {
        int[] counts = new int[TestResult.Answer.values().length];
        Map<Integer, TestResult> of = known.computeIfAbsent(volume.number(), v -> new HashMap<>());
        for (int i = 0; i < results.length; i++) {
            if (results[i] != null) {
                of.put(i, results[i]);
                counts[results[i].answer().ordinal()]++;
            }
        }
        return counts;
    }

    /** What is known of an entry, in words; empty where it was not tested. */
    String words(FileVolume volume, int entry) {
        TestResult result = known.getOrDefault(volume.number(), Map.of()).get(entry);
        if (result == null) {
            return "";
        }
        String why = result.sentence(Locale.getDefault());
        return Words.of("opens." + result.answer().name().toLowerCase(Locale.ROOT)) + (result.type() == null ? "" : " \u00B7 " + result.type().name())
                + (why.isEmpty() ? "" : " \u00B7 " + why);
    }
}
