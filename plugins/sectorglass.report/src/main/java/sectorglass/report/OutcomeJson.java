package sectorglass.report;

import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.Totals;

/** Sums of volumes as JSON. */
public final class OutcomeJson {
    private final JsonOut to;

    private OutcomeJson(JsonOut to) {
        this.to = to;
    }

    /** Writes {@code {"volumes":[…]}}; the stream stays open. */
    public static void write(List<Outcome> outcomes, OutputStream out) {
        try (JsonOut to = new JsonOut(out)) {
            OutcomeJson json = new OutcomeJson(to);
            to.object(() -> to.array("volumes", outcomes, outcome -> json.volume((Outcome) outcome))).line();
        }
    }

    private void volume(Outcome outcome) {
        to.object(() -> {
            to.field("number", outcome.volume().number()).field("kind", outcome.volume().volume().info().kind())
                    .field("label", outcome.volume().volume().info().label());
            to.object("all", () -> totals(outcome.totals()));
            to.object("deleted", () -> totals(outcome.deleted()));
            to.object("structures", () -> totals(outcome.structures()));
            to.array("kinds", outcome.kinds().entrySet(), each -> {
                Map.Entry<?, ?> kind = (Map.Entry<?, ?>) each;
                to.object(() -> {
                    to.field("kind", ((FileKind) kind.getKey()).word());
                    totals((Totals) kind.getValue());
                });
            });
            to.array("folders", folders(outcome), each -> to.object(() -> {
                to.field("path", outcome.tree().path((Integer) each));
                totals(outcome.folder((Integer) each));
            }));
            to.field("unreadMetadata", outcome.unreadMetadata());
        });
    }

    /** All folders that hold a file that is not deleted, at any depth, in the order of the tree. */
    private static List<Integer> folders(Outcome outcome) {
        List<Integer> all = new ArrayList<>();
        FileTree tree = outcome.tree();
        tree.walk(tree.root(), (entry, depth) -> {
            if (entry != tree.root() && tree.folder(entry) && outcome.folder(entry).files() > 0) {
                all.add(entry);
            }
            return true;
        });
        return all;
    }

    private void totals(Totals totals) {
        to.field("files", totals.files()).field("bytes", totals.bytes()).field("readBytes", totals.readBytes());
        for (FileState state : FileState.values()) {
            to.field(state.word(), totals.files(state));
        }
        to.field("emptyInside", totals.empty());
    }
}
