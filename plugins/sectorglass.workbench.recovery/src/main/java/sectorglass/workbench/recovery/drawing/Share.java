package sectorglass.workbench.recovery.drawing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.ToLongFunction;

import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.image.SafeText;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.Totals;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.Words;

/**
 * Files that stand together: those of a kind, those below a folder, or those that lie in the folder itself.
 *
 * @param kind of the files, or null
 * @param folder that they lie below, or in; -1 for a kind
 * @param opens whether the folder holds others that can be drawn in turn
 */
record Share(String name, FileKind kind, int folder, boolean opens, Totals totals) {

    /** The kinds that occur, the largest first. */
    static List<Share> kinds(Outcome outcome, ToLongFunction<Totals> measure) {
        List<Share> all = new ArrayList<>();
        outcome.kinds().forEach((kind, totals) -> all.add(new Share(word(kind), kind, -1, false, totals)));
        all.sort(Comparator.comparingLong((Share one) -> measure.applyAsLong(one.totals)).reversed());
        return all;
    }

    /** The folders of a folder and the files in itself, the largest first; empty ones are left out. */
    static List<Share> folders(Outcome outcome, int folder, ToLongFunction<Totals> measure) {
        FileTree tree = outcome.tree();
        List<Share> all = new ArrayList<>();
        List<Totals> below = new ArrayList<>();
        for (int i = 0; i < tree.childCount(folder); i++) {
            int child = tree.child(folder, i);
            Totals totals = tree.folder(child) ? outcome.folder(child) : null;
            if (totals != null && totals.files() > 0) {
                all.add(new Share(SafeText.of(tree.name(child)) + "/", null, child, true, totals));
                below.add(totals);
            }
        }
        Totals here = outcome.folder(folder).without(below);
        if (here.files() > 0) {
            all.add(new Share(Words.of("drawing.here"), null, folder, false, here));
        }
        all.sort(Comparator.comparingLong((Share one) -> measure.applyAsLong(one.totals)).reversed());
        return all;
    }

    static String word(FileKind kind) {
        return Words.of("kind." + kind.word().replace(' ', '-'));
    }

    /** "312 files, 50.3 MB (48 MiB): 300 complete, 12 damaged". */
    String words() {
        List<String> states = new ArrayList<>();
        for (FileState state : FileState.values()) {
            if (totals.files(state) > 0) {
                states.add(Numbers.grouped(totals.files(state)) + " " + Words.of("state." + state.word()));
            }
        }
        return Words.of(totals.files() == 1 ? "drawing.words.one" : "drawing.words", Numbers.grouped(totals.files()), Numbers.size(totals.bytes()), String.join(", ", states));
    }
}
