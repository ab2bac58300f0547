package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.image.OpenImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.PathPattern;
import sectorglass.report.JsonOut;

/** Lists the files of a volume. */
@Command(description = {"Prints the folder tree of a volume with what was recovered of each file: complete, damaged, lost, elsewhere,",
    "encrypted, unknown. With --json one object per line."})
final class FilesCommand extends VolumeCommand {

    @Option(names = "--only", paramLabel = "PATTERN", description = "Paths or names: * any part of a name, ** any folders, ? one character.")
    private List<String> only = List.of();

    @Option(names = "--no-deleted", description = "Leaves deleted files out.")
    private boolean noDeleted;

    FilesCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        Chosen chosen = choose(opened);
        FileTree tree = chosen.files().tree(progress());
        List<PathPattern> patterns = only.stream().map(PathPattern::new).toList();
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
                show(chosen, tree, entry, depth, counts, opened.sectorSize(), to);
            }
            return true;
        });
        if (!json) {
            totals(tree, counts);
        }
        return Status.DONE;
    }

    private void show(Chosen chosen, FileTree tree, int entry, int depth, long[] counts, int sectorSize, JsonOut to) {
        Content content = tree.folder(entry) ? null : chosen.files().content(entry, "");
        FileEntry full = tree.entry(entry);
        FileState state = full.special() != null ? full.special() : content != null ? content.state()
                : tree.folder(entry) ? FileState.COMPLETE : FileState.UNKNOWN;
        if (!tree.folder(entry)) {
            counts[state.ordinal()]++;
        }
        if (to == null) {
            text(full, state, depth, content);
            return;
        }
        SectorRanges sectors = content == null ? SectorRanges.EMPTY : Extent.sectors(content.extents(), sectorSize);
        to.object(() -> {
            to.field("path", full.path()).field("folder", full.folder()).field("bytes", full.bytes() < 0 ? null : full.bytes())
                    .field("readBytes", content == null || content.bytes() < 0 ? null : content.readBytes()).field("state", state.word())
                    .field("deleted", full.deleted());
            to.array("extents", inOrder(content, sectorSize, sectors), r -> to.list(((SectorRange) r).first(), ((SectorRange) r).count()));
            to.field("modified", full.times().modified());
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

    private void text(FileEntry full, FileState state, int depth, Content content) {
        StringBuilder line = new StringBuilder("  ".repeat(Math.min(depth - 1, 40)));
        line.append(FileTree.part(full.name()));
        if (full.folder()) {
            line.append('/');
        } else {
            line.append("  ").append(full.bytes() < 0 ? "length not known" : Numbers.grouped(full.bytes()) + " bytes").append(", ").append(state.word());
            if (state == FileState.DAMAGED && content != null) {
                line.append(" (").append(Numbers.grouped(full.bytes() - content.readBytes())).append(" bytes missing)");
            }
        }
        line.append(full.deleted() ? ", deleted" : "");
        line.append(full.times().modified() == null ? "" : ", " + full.times().modified());
        for (FileEntry.Stream stream : full.streams()) {
            if (!stream.name().isEmpty()) {
                line.append(", stream \"").append(FileTree.part(stream.name())).append("\" ").append(Numbers.grouped(stream.bytes())).append(" bytes");
            }
        }
        out.println(line);
    }

    private void totals(FileTree tree, long[] counts) {
        StringBuilder line = new StringBuilder();
        for (FileState state : FileState.values()) {
            line.append(line.isEmpty() ? "" : " · ").append(state.word()).append(' ').append(Numbers.grouped(counts[state.ordinal()]));
        }
        out.println(line);
        if (!tree.unreadMetadata().isEmpty()) {
            out.println("! " + Numbers.grouped(tree.unreadMetadata().count())
                    + " sectors of metadata were not read: names or whole folders may be missing from this list.");
        }
        tree.remarks().forEach(remark -> out.println("! " + remark));
    }
}
