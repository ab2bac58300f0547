package sectorglass.cli;

import java.io.PrintStream;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.image.Texts;
import sectorglass.recovery.outcome.DamagePlace;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.Totals;

/** Sums of a volume as text. */
final class OutcomeText {
    private static final int FOLDERS = 200;

    private OutcomeText() {
    }

    static void print(Outcome outcome, Texts texts, PrintStream out) {
        String label = outcome.volume().volume().info().label();
        out.println(texts.of("summary.volume", Integer.toString(outcome.volume().number()), outcome.volume().volume().info().kind())
                + (label == null || label.isEmpty() ? "" : ", " + texts.of("summary.label", FileTree.part(label))));
        Table table = new Table("lrrrrrrrr").row("", texts.of("summary.files"), texts.of("summary.bytes"), texts.of("summary.read"), texts.of("state.complete"),
                texts.of("state.damaged"), texts.of("state.lost"), texts.of("summary.other"), texts.of("summary.empty"));
        for (Map.Entry<FileKind, Totals> kind : outcome.kinds().entrySet()) {
            row(table, texts.of("kind." + kind.getKey().word().replace(' ', '-')), kind.getValue());
        }
        row(table, texts.of("summary.all"), outcome.totals());
        if (outcome.deleted().files() > 0) {
            row(table, texts.of("summary.deleted"), outcome.deleted());
        }
        if (outcome.structures().files() > 0) {
            row(table, texts.of("summary.structures"), outcome.structures());
        }
        table.row();
        FileTree tree = outcome.tree();
        int shown = 0;
        for (int i = 0; i < tree.childCount(tree.root()) && shown < FOLDERS; i++) {
            int child = tree.child(tree.root(), i);
            if (tree.folder(child) && outcome.folder(child).files() > 0) {
                row(table, FileTree.part(tree.name(child)) + "/", outcome.folder(child));
                shown++;
            }
        }
        table.print(out, "  ");
        if (outcome.totals().empty() > 0) {
            out.println("! " + texts.of("summary.empty.remark", Numbers.grouped(outcome.totals().empty()), Numbers.size(outcome.totals().emptyBytes())));
        }
        if (outcome.unreadMetadata() > 0) {
            out.println("! " + texts.of("summary.unread", Numbers.grouped(outcome.unreadMetadata())));
        }
        out.println();
    }

    private static void row(Table table, String name, Totals totals) {
        long other = totals.files(FileState.ELSEWHERE) + totals.files(FileState.ENCRYPTED) + totals.files(FileState.UNKNOWN);
        table.row(name, Numbers.grouped(totals.files()), Numbers.grouped(totals.bytes()), Numbers.grouped(totals.readBytes()),
                Numbers.grouped(totals.files(FileState.COMPLETE)), Numbers.grouped(totals.files(FileState.DAMAGED)),
                Numbers.grouped(totals.files(FileState.LOST)), Numbers.grouped(other), Numbers.grouped(totals.empty()));
    }

    /** "header, middle". */
    static String parts(List<DamagePlace> places, Texts texts) {
        EnumSet<DamagePlace.Part> parts = EnumSet.noneOf(DamagePlace.Part.class);
        places.forEach(place -> parts.add(place.part()));
        return parts.stream().map(part -> texts.of("part." + part.word())).collect(Collectors.joining(", "));
    }
}
