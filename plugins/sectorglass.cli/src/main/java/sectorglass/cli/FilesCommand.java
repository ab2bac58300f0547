package sectorglass.cli;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Phrases;
import sectorglass.image.OpenImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.PathPattern;
import sectorglass.recovery.opening.FileTests;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.outcome.DamagePlace;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.recovery.outcome.WantedList;
import sectorglass.recovery.outcome.WishAnswer;
import sectorglass.report.JsonOut;
import sectorglass.report.OutcomeJson;
import sectorglass.report.WishesJson;

/** Lists the files of a volume. */
@Command(description = {"Prints the folder tree of a volume with what was recovered of each file: complete, damaged, lost, elsewhere,",
    "encrypted, unknown. With --json one object per line. With --summary sums of all volumes by state, kind and folder."})
final class FilesCommand extends VolumeCommand {

    @Option(names = "--only", paramLabel = "PATTERN", description = "Paths or names: * any part of a name, ** any folders, ? one character.")
    private List<String> only = List.of();

    @Option(names = "--no-deleted", description = "Leaves deleted files out.")
    private boolean noDeleted;

    @Option(names = "--test", description = "Tests by content whether each file listed opens: opened, damaged, structure sound, cannot be tested.")
    private boolean test;

    @Option(names = "--summary", description = "Sums by state, kind and folder instead of the list; of all volumes where --volume gives none.")
    private boolean summary;

    @Option(names = "--wanted", paramLabel = "FILE", description = {"Answers the customer's wanted list (CSV: name,folder,kind,from,to,note) instead of listing files;",
        "of all volumes where --volume gives none."})
    private Path wanted;

    /** Words of the list that were looked up: it may have millions of lines. */
    private final Map<String, String> words = new HashMap<>();

    FilesCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        if (summary) {
            List<Outcome> outcomes = chooseAll(opened).stream().map(volume -> Outcome.of(volume, true, progress())).toList();
            if (json) {
                OutcomeJson.write(outcomes, out);
            } else {
                outcomes.forEach(outcome -> OutcomeText.print(outcome, texts(), out));
            }
            return Status.DONE;
        }
        if (wanted != null) {
            WantedList list = WantedOption.load(wanted);
            List<Outcome> outcomes = chooseAll(opened).stream().map(volume -> Outcome.of(volume, true, progress())).toList();
            List<WishAnswer> answers = WishAnswer.of(list, outcomes, progress());
            if (json) {
                WishesJson.write(answers, out);
            } else {
                WishText.print(answers, texts(), out);
            }
            return Status.DONE;
        }
        VolumeFiles chosen = choose(opened);
        FileTree tree = chosen.files().tree(progress());
        List<PathPattern> patterns = only.stream().map(PathPattern::new).toList();
        TestResult[] results = test ? FileTests.ofProviders().testAll(Outcome.of(chosen, false, progress()),
                entry -> wanted(tree, entry, patterns), Runtime.getRuntime().availableProcessors(), progress()) : null;
        long[] counts = new long[FileState.values().length];
        JsonOut to = json ? new JsonOut(out) : null;
        tree.walk(tree.root(), (entry, depth) -> {
            if (entry == tree.root()) {
                return true;
            }
            if (noDeleted && tree.deleted(entry)) {
                return false;
            }
            if (patterns.isEmpty() || patterns.stream().anyMatch(p -> p.matches(tree.path(entry)))) {
                show(chosen, tree, entry, depth, counts, opened.sectorSize(), to, results == null ? null : results[entry]);
            }
            return true;
        });
        if (!json) {
            totals(tree, counts);
            chosen.volume().capability(Allocation.class).ifPresent(map -> space(map, opened.sectorSize()));
        }
        return Status.DONE;
    }

    private boolean wanted(FileTree tree, int entry, List<PathPattern> patterns) {
        return !(noDeleted && tree.deleted(entry)) && (patterns.isEmpty() || patterns.stream().anyMatch(p -> p.matches(tree.path(entry))));
    }

    private void show(VolumeFiles chosen, FileTree tree, int entry, int depth, long[] counts, int sectorSize, JsonOut to, TestResult result) {
        Content content = tree.folder(entry) ? null : chosen.files().content(entry, "");
        FileEntry full = tree.entry(entry);
        FileState state = full.special() != null ? full.special() : content != null ? content.state()
                : tree.folder(entry) ? FileState.COMPLETE : FileState.UNKNOWN;
        if (!tree.folder(entry)) {
            counts[state.ordinal()]++;
        }
        if (to == null) {
            text(full, state, depth, content, result);
            return;
        }
        SectorRanges sectors = content == null ? SectorRanges.EMPTY : Extent.sectors(content.extents(), sectorSize);
        to.object(() -> {
            to.field("path", full.path()).field("folder", full.folder()).field("bytes", full.bytes() < 0 ? null : full.bytes())
                    .field("readBytes", content == null || content.bytes() < 0 ? null : content.readBytes()).field("state", state.word())
                    .field("deleted", full.deleted());
            to.array("extents", chosen.onImage(inOrder(content, sectorSize, sectors)), r -> to.list(((SectorRange) r).first(), ((SectorRange) r).count()));
            to.field("modified", full.times().modified());
            if (!full.folder()) {
                to.field("kind", FileKind.of(full.name()).word());
                List<DamagePlace> places = state == FileState.DAMAGED && content.bytes() >= 0 ? DamagePlace.of(content.bytes(), content.missing()) : List.of();
                to.array("damage", places, d -> to.list(((DamagePlace) d).range().start(), ((DamagePlace) d).range().length(), ((DamagePlace) d).part().word()));
            }
            if (result != null) {
                to.object("test", () -> to.field("result", result.answer().word()).field("type", result.type() == null ? null : result.type().id())
                        .field("nameFits", result.nameFits()).field("reason", result.sentence(locale()).isEmpty() ? null : result.sentence(locale())));
            }
        }).line();
    }

    /** The extents in order of the file, touching ones joined. */
    private static Iterable<SectorRange> inOrder(Content content, int sectorSize, SectorRanges sectors) {
        if (content == null || sectors.runs() < 2) {
            return sectors;
        }
        List<SectorRange> all = new java.util.ArrayList<>();
        for (Extent extent : content.extents()) {
            if (extent.placed()) {
                SectorRange next = extent.sectors(sectorSize);
                int last = all.size() - 1;
                if (last >= 0 && all.get(last).end() == next.first()) {
                    all.set(last, new SectorRange(all.get(last).first(), all.get(last).count() + next.count()));
                } else {
                    all.add(next);
                }
            }
        }
        return all;
    }

    private void text(FileEntry full, FileState state, int depth, Content content, TestResult result) {
        StringBuilder line = new StringBuilder("  ".repeat(Math.min(depth - 1, 40)));
        line.append(FileTree.part(full.name()));
        if (full.folder()) {
            line.append('/');
        } else {
            line.append("  ").append(full.bytes() < 0 ? word("files.length.unknown") : Numbers.grouped(full.bytes()) + " " + word("files.bytes")).append(", ")
                    .append(word("state." + state.word()));
            if (state == FileState.DAMAGED && content != null) {
                line.append(" (").append(texts().of("files.missing", Numbers.grouped(full.bytes() - content.readBytes()),
                        OutcomeText.parts(DamagePlace.of(content.bytes(), content.missing()), texts()))).append(')');
            }
        }
        line.append(full.deleted() ? ", " + word("files.deleted") : "");
        line.append(full.times().modified() == null ? "" : ", " + full.times().modified());
        if (result != null && !full.folder()) {
            String why = result.sentence(locale());
            line.append(" [").append(word("test." + result.answer().name().toLowerCase(Locale.ROOT))).append(result.type() == null ? "" : ", " + result.type().name())
                    .append(why.isEmpty() ? "" : ": " + why).append(']');
        }
        for (FileEntry.Stream stream : full.streams()) {
            if (!stream.name().isEmpty()) {
                line.append(", ").append(texts().of("files.stream", FileTree.part(stream.name()), Numbers.grouped(stream.bytes())));
            }
        }
        out.println(line);
    }

    private void space(Allocation map, int sectorSize) {
        if (map.used().isEmpty() && map.free().isEmpty()) {
            return; // no map, or nothing of it was read
        }
        long unknown = map.unknown().count();
        out.println(texts().of("files.space", Numbers.size(map.used().count() * sectorSize), Numbers.size(map.free().count() * sectorSize))
                + (unknown == 0 ? "" : ", " + texts().of("files.space.unknown", Numbers.size(unknown * sectorSize))));
    }

    private void totals(FileTree tree, long[] counts) {
        StringBuilder line = new StringBuilder();
        for (FileState state : FileState.values()) {
            line.append(line.isEmpty() ? "" : " · ").append(word("state." + state.word())).append(' ').append(Numbers.grouped(counts[state.ordinal()]));
        }
        out.println(line);
        if (!tree.unreadMetadata().isEmpty()) {
            out.println("! " + texts().of("files.unread", Numbers.grouped(tree.unreadMetadata().count())));
        }
        Phrases phrases = Phrases.in(locale());
        tree.remarks().forEach(remark -> out.println("! " + phrases.of(remark)));
    }

    private String word(String key) {
        return words.computeIfAbsent(key, known -> texts().of(known));
    }
}
