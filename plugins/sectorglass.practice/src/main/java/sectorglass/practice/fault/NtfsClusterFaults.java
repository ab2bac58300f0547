package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/** Faults of runs and of the bitmap of clusters of NTFS (Linux kernel fs/ntfs3/ntfs.h, ATTR_NONRESIDENT; fs/ntfs3/bitmap.c). */
final class NtfsClusterFaults {

    private NtfsClusterFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("ntfs.claimed-but-free", 4, NtfsClusterFaults::free),
                kind("ntfs.allocated-but-unclaimed", 4, NtfsClusterFaults::unclaimed),
                kind("ntfs.run.beyond-volume", 5, NtfsClusterFaults::beyond),
                kind("ntfs.cluster-claimed-twice", 5, NtfsClusterFaults::twice));
    }

    private static FaultKind kind(String check, int level, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.NTFS, "files", planting);
    }

    private static long cluster(Site site, long firstByte) {
        return (firstByte - site.volume().firstByte()) / site.clusterBytes();
    }

    private static long bit(Site site, long cluster) {
        return site.place("bitmap") + cluster / 8;
    }

    private static long runs(Site site, Site.Entry file) throws IOException {
        long attribute = NtfsRecordFaults.attribute(site, file.place().entryByte(), NtfsRecordFaults.DATA);
        return attribute + site.number(attribute + 0x20, 2);
    }

    /** The bitmap calls a cluster of a file free. */
    private static void free(Site site) throws IOException {
        Site.Entry file = site.file(2);
        long cluster = cluster(site, file.place().runs().get(0).firstByte());
        site.flip(bit(site, cluster), 1 << cluster % 8);
    }

    /** The bitmap calls free clusters used. */
    private static void unclaimed(Site site) throws IOException {
        long bytes = site.volume().bytes() / site.clusterBytes() / 8;
        for (long at = site.place("bitmap") + bytes * 3 / 4 + site.below(20); at < site.place("bitmap") + bytes; at++) {
            if (site.number(at, 1) == 0) {
                site.put(at, 1, 1L << site.below(8));
                return;
            }
        }
        throw new FaultKind.NoPlaceException("no free cluster");
    }

    /** A run begins behind the end of the volume; its clusters are marked free, so that this is the only fault. */
    private static void beyond(Site site) throws IOException {
        Site.Entry file = victim(site);
        long run = runs(site, file);
        site.put(run + 1 + (site.number(run, 1) & 15), 2, 0x7F00 + site.below(0xFF)).seenAt(run, 8);
        release(site, file);
    }

    /** A file says that it begins where another one lies. */
    private static void twice(Site site) throws IOException {
        Site.Entry file = victim(site);
        Site.Entry other = site.pick(site.entries(e -> !e.folder() && e != file && !e.path().equals(file.path()) && site.clusters(e) >= site.clusters(file)
                && e.place().runs().size() == 1), "another file");
        long run = runs(site, file);
        site.put(run + 1 + (site.number(run, 1) & 15), 2, cluster(site, other.place().runs().get(0).firstByte())).seenAt(run, 8);
        release(site, file);
    }

    private static Site.Entry victim(Site site) throws IOException {
        List<Site.Entry> all = site.entries(e -> !e.folder() && e.place().runs().size() == 1 && site.clusters(e) >= 2);
        Site.Entry file = site.pick(all, "a file");
        if (site.number(runs(site, file), 1) >> 4 != 2) {
            throw new FaultKind.NoPlaceException("the run's place has not two bytes");
        }
        return file;
    }

    private static void release(Site site, Site.Entry file) throws IOException {
        long first = cluster(site, file.place().runs().get(0).firstByte());
        for (long cluster = first; cluster < first + site.clusters(file); cluster++) {
            site.quietly(bit(site, cluster), 1, site.number(bit(site, cluster), 1) & ~(1L << cluster % 8));
        }
    }
}
