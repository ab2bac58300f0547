package sectorglass.exfat;

import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** The allocation bitmap against the owners of clusters, and PercentInUse. Source: Microsoft exFAT specification, sections 3.1.18, 7.1.5. */
final class BitmapCheck {

    private final Geometry geometry;
    private final Bitmap bitmap;
    private final Fat fat;
    private final TreeCheck tree;
    private final SharedClusters shared;
    private final Checks out;
    private long used;
    private long orphans;
    private long firstOrphan;
    private long bare;
    private long firstBare;

    BitmapCheck(Geometry geometry, Bitmap bitmap, Fat fat, TreeCheck tree, SharedClusters shared, Checks out) {
        this.geometry = geometry;
        this.bitmap = bitmap;
        this.fat = fat;
        this.tree = tree;
        this.shared = shared;
        this.out = out;
    }

    /**
     * Compares.
     *
     * @param size the broken verdict about the number of clusters, or null
     */
    void run(BootSector main, boolean mainRead, Mark size, Progress progress) {
        for (long i = 0; i < bitmap.bytes(); i++) {
            int bits = bitmap.eight(i);
            if (bits >= 0) {
                used += Integer.bitCount(bits);
                int owned = tree.owned().eight(i);
                if (bits != owned) {
                    compare(i, bits, owned);
                }
            }
            if ((i & 0xFFFF) == 0) {
                progress.checkCancelled();
                progress.at("bitmap", i, bitmap.bytes());
            }
        }
        SectorRanges missing = bitmap.missing();
        ByteRange whole = bitmap.stretch().where(0, Math.max(1, bitmap.bytes()));
        Checks here = out.in(whole);
        here.report("exfat.bitmap-covers-owners", whole, bare > 0 ? bareOwner() : missing.isEmpty() ? Outcome.passed()
                : Outcome.unread(missing));
        here.report("exfat.bitmap-no-orphans", whole, orphans(missing, size));
        if (mainRead) {
            out.in(main.at(0, BootSector.SIZE)).check("exfat.percent-in-use", main.at(BootSector.PERCENT, 1),
                    () -> percent(main, missing, size));
        }
    }

    private void compare(long index, int bits, int owned) {
        for (int i = 0; i < 8; i++) {
            long cluster = index * 8 + 2 + i;
            int bit = bits >> i & 1;
            int owner = owned >> i & 1;
            if (bit == 0 && owner == 1) {
                firstBare = bare++ == 0 ? cluster : firstBare;
            } else if (bit == 1 && owner == 0 && cluster <= tree.owned().last() && fat.entry(cluster) != Fat.BAD) {
                firstOrphan = orphans++ == 0 ? cluster : firstOrphan;
            }
        }
    }

    private Outcome bareOwner() {
        long cluster = firstBare;
        int owner = shared.ownersOf(c -> c == cluster, Map.of()).getOrDefault(cluster, -1);
        return Outcome.failed(bare == 1 ? "0" : "0, and those of " + (bare - 1) + " clusters more", "1").with("cluster", cluster)
                .with("path", owner < 0 ? "a file" : shared.name(owner)).at(byteOf(cluster))
                .because(tree.doubt(owner));
    }

    private Outcome orphans(SectorRanges missing, Mark size) {
        if (orphans == 0) {
            return missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing);
        }
        if (!tree.whole()) {
            return Outcome.unread(tree.missing());
        }
        return Outcome.failed(orphans, 0).with("cluster", firstOrphan).at(byteOf(firstOrphan))
                .because(tree.broken() != null ? tree.broken() : size);
    }

    private Outcome percent(BootSector main, SectorRanges missing, Mark size) {
        int stored = main.percentInUse();
        if (stored == 0xFF) {
            return null;
        }
        if (!missing.isEmpty()) {
            return Outcome.unread(missing);
        }
        long computed = used * 100 / geometry.clusters();
        return stored > 100 ? null : Outcome.test(stored == computed, stored, computed).because(size);
    }

    private ByteRange byteOf(long cluster) {
        return bitmap.stretch().where((cluster - 2) / 8, 1);
    }
}
