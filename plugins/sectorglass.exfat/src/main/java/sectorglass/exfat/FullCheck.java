package sectorglass.exfat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** The rules that need all directories, the FAT and the bitmap. */
final class FullCheck {

    private final ExfatVolume volume;
    private final VolumeSite site;
    private final Geometry geometry;
    private final Checks out;
    private final Progress progress;

    FullCheck(ExfatVolume volume, Checks out, Progress progress) {
        this.volume = volume;
        this.site = volume.site();
        this.geometry = volume.found().geometry();
        this.out = out;
        this.progress = progress;
    }

    /**
     * Runs them.
     *
     * @param roots what the quick check found in the root directory
     * @param size the broken verdict about the number of clusters, or null
     */
    void run(RootCheck roots, Mark size) {
        ByteRange whole = new ByteRange(site.firstByte() + geometry.clusterByte(geometry.rootCluster()), geometry.clusterBytes());
        Tally tally = new Tally(out, whole);
        Fat fat = new Fat(site, geometry);
        List<String> rules = new ArrayList<>(TreeRules.OF_ENTRIES);
        rules.addAll(TreeRules.OF_CHAINS);
        Root root = volume.root();
        if (root.directory() == null) {
            tally.finish(rules, roots.rootChain());
            return;
        }
        TreeCheck tree = new TreeCheck(site, fat, roots.upcase(), tally, progress);
        for (Mark mark : new Mark[] {roots.rootChain(), roots.upcaseEntry(), roots.bitmap()}) {
            tree.broken(mark != null && mark.failed() ? mark : null);
        }
        tree.run(root);
        SharedClusters shared = new SharedClusters(site, fat, tree, tally);
        shared.run();
        tally.finish(rules, null);
        Bitmap bitmap = volume.bitmap();
        SectorRanges unread = bitmap == null ? root.directory().missing() : volume.bitmapChainMissing();
        if (bitmap == null || !unread.isEmpty()) {
            for (String rule : List.of("exfat.bitmap-covers-owners", "exfat.bitmap-no-orphans")) {
                out.report(rule, whole, (unread.isEmpty() ? Outcome.undecided("the allocation bitmap cannot be located")
                        : Outcome.unread(unread)).because(roots.bitmap()));
            }
            BootSector main = volume.found().main();
            if (!unread.isEmpty()) {
                out.in(main.at(0, BootSector.SIZE)).check("exfat.percent-in-use", main.at(BootSector.PERCENT, 1),
                        () -> main.percentInUse() > 100 ? null : Outcome.unread(unread));
            }
            return;
        }
        BootSector main = volume.found().main();
        new BitmapCheck(geometry, bitmap, fat, tree, shared, out).run(main, main.window().isRead(0, BootSector.SIZE), size, progress);
    }
}
