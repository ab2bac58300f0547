package sectorglass.fat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** The rules that need the whole FAT and all directories. */
final class FullCheck {

    private final VolumeSite site;
    private final Found found;
    private final Geometry geometry;
    private final BootCheck boot;
    private final InfoCheck info;
    private final Checks out;
    private final Progress progress;
    private final FatTable table;
    private final Tally tally;
    private final ByteRange fat;
    private final FatDifferences differences;
    private final ChainFaults faults;
    private long free;
    private long unread;

    /** @param info null where the volume is not FAT32 */
    FullCheck(VolumeSite site, Found found, FatTable table, BootCheck boot, InfoCheck info, Checks out, Progress progress) {
        this.site = site;
        this.found = found;
        this.geometry = found.geometry();
        this.boot = boot;
        this.info = info;
        this.out = out;
        this.progress = progress;
        this.table = table;
        this.fat = new ByteRange(site.firstByte() + geometry.fatByte(0), Math.max(1, geometry.fatBytes()));
        this.tally = new Tally(out, fat);
        this.differences = new FatDifferences(site, geometry);
        this.faults = new ChainFaults(table, tally, differences);
    }

    /** @param rootCluster the verdict about the first cluster of the root directory, or null */
    void run(Mark rootCluster) {
        boolean oneActive = found.layout() != null && found.layout().oneActive();
        if (geometry.fats() > 1 && !oneActive) {
            differences.check(out, progress);
        }
        scan();
        Mark lead = rootCluster != null && rootCluster.failed() ? rootCluster : null;
        TreeCheck tree = new TreeCheck(site, table, tally, faults, progress);
        List<String> rules = new ArrayList<>(TreeRules.OF_SLOTS);
        rules.addAll(TreeRules.OF_CHAINS);
        if (geometry.kind() != FatKind.FAT32) {
            rules.add("fat.high-word-zero");
        }
        if (lead == null) {
            tree.run();
            new CrossLinks(site, table, tree, tally, faults).run();
        }
        tally.finish(rules, lead);
        SectorRanges gaps = table.missing();
        out.check("fat.no-orphans", fat, () -> lead != null ? Outcome.undecided("the root directory cannot be located").because(lead)
                : orphans(tree, gaps));
        if (info != null) {
            info.freeCount(free, unread, gaps, boot.size() != null ? boot.size() : differences.mark(), faults);
        }
    }

    /** Counts free and unread entries, and reports the values that are neither free, nor link, nor mark. */
    private void scan() {
        FatKind kind = geometry.kind();
        int last = table.lastCluster();
        for (int cluster = 2; cluster <= last; cluster++) {
            int entry = table.entry(cluster);
            if (entry == 0) {
                free++;
            } else if (entry == FatTable.UNREAD) {
                unread++;
            } else if (!table.exists(entry) && entry < kind.bad()) {
                ByteRange where = table.where(cluster);
                faults.outOfRange(cluster, tally.fail("fat.link-in-range", where, where, Outcome.failed(kind.hex(entry),
                        "0, 2 to " + last + ", " + kind.hex(kind.bad()) + " or an end mark").with("cluster", cluster)
                        .because(differences.causeAt(cluster) != null ? differences.causeAt(cluster) : boot.size())));
            }
            if ((cluster & 0xFFFF) == 0) {
                progress.checkCancelled();
                progress.at("FAT entries", cluster, last);
            }
        }
        if (unread > 0) {
            tally.unread("fat.link-in-range", table.missing());
        }
        tally.finish(List.of("fat.link-in-range"), null);
    }

    private Outcome orphans(TreeCheck tree, SectorRanges gaps) {
        BitSet reached = tree.visited();
        BitSet linked = new BitSet();
        long orphans = 0;
        int first = 0;
        int bad = geometry.kind().bad();
        for (int cluster = 2; cluster <= table.lastCluster(); cluster++) {
            if (reached.get(cluster)) {
                continue;
            }
            int entry = table.entry(cluster);
            if (entry != 0 && entry != bad && entry != FatTable.UNREAD) {
                orphans++;
                first = first == 0 ? cluster : first;
                if (table.exists(entry)) {
                    linked.set(entry);
                }
            }
        }
        SectorRanges missing = tree.missing().union(gaps);
        if (orphans == 0) {
            return gaps.isEmpty() ? Outcome.passed() : Outcome.unread(gaps);
        }
        if (!missing.isEmpty()) {
            return Outcome.unread(missing).with("chains", "–").with("cluster", first);
        }
        int chains = heads(reached, linked);
        Mark cause = faults.folder() != null ? faults.folder() : faults.first() != null && chains <= faults.count() ? faults.first() : null;
        return Outcome.failed(orphans, 0).with("chains", chains).with("cluster", first).at(table.where(first))
                .because(cause != null ? cause : differences.causeAt(first) != null ? differences.causeAt(first) : boot.size());
    }

    /** Orphans that no other orphan links to; a ring of orphans has none and counts once. */
    private int heads(BitSet reached, BitSet linked) {
        int heads = 0;
        int bad = geometry.kind().bad();
        for (int cluster = 2; cluster <= table.lastCluster(); cluster++) {
            int entry = reached.get(cluster) ? 0 : table.entry(cluster);
            heads += entry != 0 && entry != bad && entry != FatTable.UNREAD && !linked.get(cluster) ? 1 : 0;
        }
        return Math.max(1, heads);
    }
}
