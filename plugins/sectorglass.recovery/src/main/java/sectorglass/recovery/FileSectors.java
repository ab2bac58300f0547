package sectorglass.recovery;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.outcome.Wish;

/**
 * The sectors of a volume's files, by what a plan wants of them.
 *
 * @param chosen sectors of chosen files
 * @param chosenCount number of chosen files
 * @param later sectors of files that come last and of no other
 * @param live sectors of all files that are not deleted
 * @param whole whether the tree is whole, so that no chosen file can be missing from it
 * @param remarks sentences for the plan
 */
record FileSectors(SectorRanges chosen, int chosenCount, SectorRanges later, SectorRanges live, boolean whole, List<String> remarks) {
    static final FileSectors NONE = new FileSectors(SectorRanges.EMPTY, 0, SectorRanges.EMPTY, SectorRanges.EMPTY, true, List.of());

    static FileSectors of(Files files, PlanOptions options, int sectorSize, Progress progress) {
        FileTree tree = files.tree(progress);
        List<SectorRange> chosen = new ArrayList<>();
        List<SectorRange> later = new ArrayList<>();
        List<SectorRange> others = new ArrayList<>();
        int[] count = {0};
        boolean[] under = new boolean[tree.size()];
        List<Wish.Finder> wishes = options.wishes().stream().map(wish -> wish.finder(tree)).toList();
        tree.walk(tree.root(), (entry, depth) -> {
            progress.checkCancelled();
            int parent = tree.parent(entry);
            under[entry] = parent >= 0 && under[parent] || any(options.chosen(), tree, entry);
            boolean wanted = under[entry];
            for (int i = 0; i < wishes.size() && !wanted && !tree.folder(entry); i++) {
                wanted = wishes.get(i).means(entry);
            }
            if (tree.deleted(entry) && !wanted) {
                return true;
            }
            Content content = files.content(entry, "");
            if (content == null) {
                return true;
            }
            List<SectorRange> to = !wanted && any(options.later(), tree, entry) ? later : others;
            for (Extent extent : content.extents()) {
                if (extent.placed()) {
                    SectorRange sectors = extent.sectors(sectorSize);
                    if (!tree.deleted(entry)) {
                        to.add(sectors);
                    }
                    if (wanted) {
                        chosen.add(sectors);
                    }
                }
            }
            count[0] += wanted ? 1 : 0;
            return true;
        });
        SectorRanges other = SectorRanges.of(others);
        SectorRanges last = SectorRanges.of(later).minus(other);
        List<String> remarks = new ArrayList<>(tree.remarks());
        if (!tree.unreadMetadata().isEmpty()) {
            remarks.add(tree.unreadMetadata().count() + " sectors of metadata were not read: names or whole folders may be missing.");
        }
        for (PathPattern pattern : options.chosen()) {
            if (count[0] == 0) {
                remarks.add("nothing read so far is called \"" + pattern + "\".");
            }
        }
        return new FileSectors(SectorRanges.of(chosen), count[0], last, other.union(last), tree.unreadMetadata().isEmpty(), List.copyOf(remarks));
    }

    /** Whether a pattern means the entry; paths are put together only where its name alone does not rule it out. */
    private static boolean any(List<PathPattern> patterns, FileTree tree, int entry) {
        for (PathPattern pattern : patterns) {
            if (pattern.mayMatch(tree, entry) && pattern.matches(tree.path(entry))) {
                return true;
            }
        }
        return false;
    }
}
