package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/** Faults of chains (Microsoft FAT specification, "FAT Data Structure"). What follows from a broken chain is put right, so that one cause stays one fault. */
final class FatChainFaults {

    private FatChainFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("fat.link-in-range", 4, FatChainFaults::link),
                kind("fat.chain-no-loop", 4, FatChainFaults::loop),
                kind("fat.chain-no-free-or-bad", 4, FatChainFaults::free),
                kind("fat.no-orphans", 4, FatChainFaults::orphan),
                kind("fat.chain-length-matches-size", 3, FatChainFaults::size),
                kind("fat.chain-no-cross-link", 5, FatChainFaults::cross),
                kind("fat.entry-start-in-range", 4, FatChainFaults::start));
    }

    private static FaultKind kind(String check, int level, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.FAT, "tables", planting);
    }

    /** The entry of the second cluster of a file leads nowhere; what came after it is free. */
    private static void link(Site site) throws IOException {
        Site.Entry file = file(site);
        FatTableBytes table = new FatTableBytes(site);
        table.put(second(table, file), site.below(2) == 0 ? 1 : table.beyond());
        table.free(file, 2);
    }

    private static Site.Entry file(Site site) {
        return site.pick(site.entries(e -> !e.folder() && e.place().runs().get(0).bytes() >= 4L * site.clusterBytes()), "a long file");
    }

    private static long second(FatTableBytes table, Site.Entry file) throws IOException {
        return table.cluster(file.place().runs().get(0).firstByte()) + 1;
    }

    private static void loop(Site site) throws IOException {
        Site.Entry file = file(site);
        FatTableBytes table = new FatTableBytes(site);
        table.put(second(table, file), second(table, file) - 1);
        table.free(file, 2);
    }

    /** A chain ends in a free cluster. */
    private static void free(Site site) throws IOException {
        Site.Entry file = file(site);
        FatTableBytes table = new FatTableBytes(site);
        table.put(second(table, file) + 1, 0);
        table.freeCount(1);
        table.free(file, 3);
    }

    private static void orphan(Site site) throws IOException {
        FatTableBytes table = new FatTableBytes(site);
        long cluster = table.cluster(site.volume().firstByte() + site.volume().bytes()) - 10 - site.below(500);
        table.put(cluster, FatTableBytes.END);
        table.freeCount(-1);
    }

    private static long slot(Site.Entry file) {
        return file.place().entryByte();
    }

    private static void size(Site site) throws IOException {
        Site.Entry file = site.file(3);
        site.put(slot(file) + 28, 4, file.bytes() + (3L + site.below(5)) * site.clusterBytes());
    }

    /** A file begins where another one does; its own clusters are free, its size is that of the other. */
    private static void cross(Site site) throws IOException {
        Site.Entry file = site.file(2);
        Site.Entry other = site.pick(site.entries(e -> !e.folder() && !e.path().equals(file.path()) && site.clusters(e) >= 2), "another file");
        FatTableBytes table = new FatTableBytes(site);
        site.put(slot(file) + 26, 2, table.cluster(other.place().runs().get(0).firstByte()) & 0xFFFF);
        site.quietly(slot(file) + 28, 4, other.bytes());
        table.free(file, 0);
        site.seenAt(slot(other) + 20, 12);
    }

    private static void start(Site site) throws IOException {
        Site.Entry file = site.file(2);
        FatTableBytes table = new FatTableBytes(site);
        if (Area.FAT32.fits(site.volume().kind())) {
            site.put(slot(file) + 20, 2, 0x0FF0 + site.below(8));
        } else {
            site.put(slot(file) + 26, 2, table.beyond() - site.below(6));
        }
        table.free(file, 0);
        site.seenAt(slot(file) + 26, 2);
    }
}
