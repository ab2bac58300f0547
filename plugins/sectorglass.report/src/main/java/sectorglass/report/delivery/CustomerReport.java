package sectorglass.report.delivery;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

import sectorglass.disk.FileState;
import sectorglass.image.Progress;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.Totals;
import sectorglass.recovery.outcome.WishAnswer;
import sectorglass.report.document.Block;

/** The customer's report as blocks: what came back, in plain words; the damaged files first; room for approval. */
final class CustomerReport {
    /** Rows of files that are not whole; all others stand in the full list. */
    static final int MOST_ROWS = 2000;
    private static final int MOST_FOLDERS = 60;

    private final ReportInput input;
    private final Forms forms;
    private final Rows rows;
    private final Progress progress;
    private final List<Block> blocks = new ArrayList<>();
    private final long[][] count;

    CustomerReport(ReportInput input, Forms forms, Progress progress) {
        this.progress = progress;
        this.input = input;
        this.forms = forms;
        this.rows = new Rows(input, forms);
        this.count = rows.count();
    }

    String title() {
        return forms.of("customer.title");
    }

    List<Block> blocks() {
        List<String> below = new ArrayList<>();
        if (input.reference() != null) {
            below.add(forms.of("reference", input.reference()));
        }
        below.add(forms.day(input.at(), input.zone()));
        blocks.add(new Block.Title(title(), below));
        summary();
        wanted();
        kinds();
        folders();
        files();
        pictures();
        blocks.add(new Block.Heading(forms.of("customer.list")));
        blocks.add(new Block.Paragraph(forms.of("customer.list.where", total(0))));
        blocks.add(new Block.Heading(forms.of("customer.know")));
        for (String key : List.of("caution.copy", "caution.private", "caution.authority", "caution.expert")) {
            blocks.add(new Block.Paragraph(forms.of(key)));
        }
        blocks.add(new Block.Heading(forms.of("approval")));
        blocks.addAll(new JobRecords(input, forms).received());
        blocks.add(new Block.Approval(List.of(forms.of("approval.list"), forms.of("approval.damaged"), forms.of("approval.more")),
                List.of(forms.of("approval.name"), forms.of("approval.date"), forms.of("approval.signature"), forms.of("approval.reference"))));
        return blocks;
    }

    private long total(int what) {
        return java.util.Arrays.stream(count).mapToLong(c -> c[what]).sum();
    }

    private void summary() {
        long files = total(0);
        long whole = count[Rows.Group.WHOLE.ordinal()][0];
        blocks.add(new Block.Paragraph(files == 0 ? forms.of("summary.none") : forms.of(whole == files ? "summary.all" : "summary.some", files, whole,
                forms.share(whole, files), forms.size(total(1)))));
        List<List<String>> table = new ArrayList<>();
        for (Rows.Group group : List.of(Rows.Group.WHOLE, Rows.Group.DAMAGED, Rows.Group.NOT_OPENING, Rows.Group.EMPTY, Rows.Group.LOST, Rows.Group.UNKNOWN,
                Rows.Group.ENCRYPTED, Rows.Group.ELSEWHERE)) {
            long[] of = count[group.ordinal()];
            if (of[0] > 0 || group == Rows.Group.WHOLE || group == Rows.Group.DAMAGED || group == Rows.Group.LOST) {
                table.add(List.of(rows.state(group), forms.count(of[0]), forms.size(of[1]), forms.of("means." + group.name().toLowerCase(java.util.Locale.ROOT))));
            }
        }
        table.add(List.of(forms.of("all"), forms.count(files), forms.size(total(1)), ""));
        blocks.add(new Block.Table(List.of(forms.of("column.state"), forms.of("column.files"), forms.of("column.size"), forms.of("column.means")),
                new boolean[] {false, true, true, false}, new double[] {20, 9, 11, 60}, table, Set.of(table.size() - 1)));
        long unread = input.outcomes().stream().mapToLong(Outcome::unreadMetadata).sum();
        if (unread > 0) {
            blocks.add(new Block.Notice(forms.of("summary.unread")));
        }
        if (input.tests().isEmpty()) {
            blocks.add(new Block.Paragraph(forms.of("summary.untested")));
        }
    }

    private void wanted() {
        if (input.wishes().isEmpty()) {
            return;
        }
        blocks.add(new Block.Heading(forms.of("wanted")));
        List<List<String>> table = new ArrayList<>();
        for (WishAnswer answer : input.wishes()) {
            Totals totals = answer.totals();
            table.add(List.of(WishWords.of(answer.wish(), forms), forms.count(totals.files()), forms.size(totals.bytes()),
                    WishSentences.answer(answer, forms)));
        }
        blocks.add(new Block.Table(List.of(forms.of("column.wish"), forms.of("column.files"), forms.of("column.size"), forms.of("column.answer")),
                new boolean[] {false, true, true, false}, new double[] {38, 9, 11, 42}, table, Set.of()));
    }

    private void kinds() {
        Map<FileKind, Totals> sums = new EnumMap<>(FileKind.class);
        for (Outcome outcome : input.outcomes()) {
            outcome.kinds().forEach((kind, totals) -> sums.merge(kind, totals, (a, b) -> Totals.sum(List.of(a, b))));
        }
        if (sums.isEmpty()) {
            return;
        }
        blocks.add(new Block.Heading(forms.of("kinds")));
        List<Block.Bar> bars = new ArrayList<>();
        sums.forEach((kind, totals) -> {
            double whole = totals.bytes(FileState.COMPLETE);
            double damaged = totals.bytes(FileState.DAMAGED);
            double lost = totals.bytes(FileState.LOST);
            bars.add(new Block.Bar(forms.of("kind." + kind.word().replace(' ', '-')), forms.of("kinds.value", totals.files(), forms.size(totals.bytes())),
                    new double[] {whole, damaged, lost, totals.bytes() - whole - damaged - lost}));
        });
        blocks.add(new Block.Bars(List.of(forms.of("bar.read"), forms.of("bar.damaged"), forms.of("bar.lost"), forms.of("bar.other")), bars));
    }

    private void folders() {
        List<List<String>> table = new ArrayList<>();
        boolean more = false;
        for (Outcome outcome : input.outcomes()) {
            for (int i = 0; i < outcome.tree().childCount(outcome.tree().root()); i++) {
                int child = outcome.tree().child(outcome.tree().root(), i);
                Totals totals = outcome.folder(child);
                if (!outcome.tree().folder(child) || totals.files() == 0) {
                    continue;
                }
                if (table.size() == MOST_FOLDERS) {
                    more = true;
                    break;
                }
                long complete = totals.files(FileState.COMPLETE);
                String name = outcome.tree().path(child);
                table.add(List.of(input.outcomes().size() == 1 ? name : rows.place(outcome) + "/" + name, forms.count(totals.files()), forms.size(totals.bytes()),
                        forms.count(complete), forms.count(totals.files(FileState.DAMAGED)), forms.count(totals.files() - complete - totals.files(FileState.DAMAGED))));
            }
        }
        if (!table.isEmpty()) {
            blocks.add(new Block.Heading(forms.of("folders")));
            blocks.add(new Block.Table(List.of(forms.of("column.folder"), forms.of("column.files"), forms.of("column.size"), forms.of("column.whole"),
                    forms.of("column.damaged"), forms.of("column.others")), new boolean[] {false, true, true, true, true, true},
                    new double[] {48, 10, 12, 12, 12, 12}, table, Set.of()));
            if (more) {
                blocks.add(new Block.Paragraph(forms.of("folders.more", MOST_FOLDERS)));
            }
        }
    }

    private void pictures() {
        if (!input.thumbnails()) {
            return;
        }
        List<Block.Picture> pictures = new Thumbnails(input, rows, progress).find();
        blocks.add(new Block.Heading(forms.of("pictures")));
        blocks.add(new Block.Paragraph(pictures.isEmpty() ? forms.of("pictures.none") : forms.of("pictures.some", pictures.size(), Thumbnails.MOST)));
        if (!pictures.isEmpty()) {
            blocks.add(new Block.Pictures(pictures));
        }
    }

    private void files() {
        long not = total(0) - count[Rows.Group.WHOLE.ordinal()][0];
        blocks.add(new Block.Heading(forms.of("files")));
        if (not == 0) {
            blocks.add(new Block.Paragraph(forms.of("files.none")));
            return;
        }
        if (not > MOST_ROWS) {
            blocks.add(new Block.Paragraph(forms.of("files.first", MOST_ROWS, not)));
        }
        List<List<String>> table = new ArrayList<>();
        rows.visit(EnumSet.complementOf(EnumSet.of(Rows.Group.WHOLE)), (index, entry, group) -> {
            String words = rows.words(index, entry, group);
            table.add(List.of(rows.path(index, entry), forms.size(rows.bytes(index, entry)), rows.state(group) + (words.isEmpty() ? "" : ": " + words)));
            return table.size() < MOST_ROWS;
        });
        blocks.add(new Block.Table(List.of(forms.of("column.file"), forms.of("column.size"), forms.of("column.state")), new boolean[] {false, true, false},
                new double[] {56, 12, 40}, table, Set.of()));
    }
}
