package sectorglass.apple;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges headers, allocation bitmap and catalog of HFS+. Source: Apple TN1150 by way of hfs_format.h (xnu). */
final class HfsPlusChecks {
    private final VolumeSite site;
    private final HfsPlus.Place place;
    private final HfsLayout layout;

    /** @param layout by the header that is believed, or null */
    HfsPlusChecks(VolumeSite site, HfsPlus.Place place, HfsLayout layout) {
        this.site = site;
        this.place = place;
        this.layout = layout;
    }

    void check(Level level, Checks all, Progress progress) {
        VolumeHeader first = new VolumeHeader(site, place.start() + 1024, 512);
        Checks out = all.in(first.whole());
        Mark geometry = out.check("hfs.vh.geometry", first.range(0, 52), () -> {
            String problem = problem(first.window());
            return Outcome.test(problem == null, problem, "sizes that agree");
        });
        Window believed = site.window(place.start() + place.header(), 512);
        if (!Boolean.TRUE.equals(VolumeFacts.known(() -> HfsPlus.plausible(believed)))) {
            return;
        }
        alternate(first, believed, geometry, out);
        if (geometry.failed()) {
            return;
        }
        out.check("hfs.vh.clean", first.range(4, 4), () -> {
            long flags = believed.u32be(4);
            return Outcome.test((flags & 0x100) != 0 && (flags & 0x800) == 0, VolumeHeader.hex(flags), "unmounted, consistent");
        });
        if (layout != null) {
            if (layout.journal() != null) {
                layout.journal().check(all);
            }
            new HfsBlockChecks(layout, all).sum(progress);
            trees(level, all, progress);
        }
    }

    private void trees(Level level, Checks all, Progress progress) {
        HfsClaims claims = new HfsClaims(layout);
        HfsCensus census = new HfsCensus(layout, all, claims);
        Mark fault = null;
        SectorRanges unread = SectorRanges.EMPTY;
        boolean whole = true;
        for (HfsTree.Kind kind : HfsTree.Kind.values()) {
            HfsTree tree = layout.tree(kind);
            if (tree == null) {
                HfsFork fork = layout.fork(kind);
                whole &= fork.bytes() == 0;
                if (fork.bytes() > 0 && fork.held(layout.site) >= 512) {
                    unread = unread.union(layout.window(fork, 0, 512).missing(0, 512));
                }
                continue;
            }
            HfsTreeChecks checks = new HfsTreeChecks(tree, all, kind == HfsTree.Kind.CATALOG ? census
                    : kind == HfsTree.Kind.ATTRIBUTES ? claims : (number, w, offsets) -> { });
            checks.check(level, progress);
            fault = fault == null ? checks.fault() : fault;
            unread = unread.union(checks.unread());
            whole &= checks.whole();
            if (kind == HfsTree.Kind.CATALOG && checks.whole() && level == Level.FULL) {
                census.check();
            }
        }
        if (level == Level.FULL) {
            census.forks(fault);
            claims.system();
            claims.sort();
            new HfsBlockChecks(layout, all).owners(claims, unread, whole, fault, progress);
        }
    }

    private void alternate(VolumeHeader first, Window believed, Mark geometry, Checks out) {
        long volume = believed.u32be(44) * believed.u32be(40);
        // the copy lies 1024 bytes before the end of the volume, which may end some sectors after the last whole block
        VolumeHeader copy = new VolumeHeader(site, place.start() + volume - 1024, 512);
        VolumeHeader late = new VolumeHeader(site, place.start() + place.length() - 1024, 512);
        if (!found(copy) && late.inside() && found(late)) {
            copy = late;
        }
        VolumeHeader other = copy;
        if (!other.inside()) {
            return;
        }
        out.in(other.whole()).check("hfs.vh.equal-alternate", other.whole(), () -> {
            Window a = first.window();
            Window b = other.window();
            for (int i = 0; i < 512; i++) {
                boolean counted = i >= 4 && i < 12 || i >= 16 && i < 40 || i >= 48 && i < 56 || i >= 64 && i < 112;
                if (!counted && a.u8(i) != b.u8(i)) {
                    return Outcome.failed(String.format("%02X", b.u8(i)), String.format("%02X", a.u8(i))).at(other.range(i, 1))
                            .with("offset", i).because(geometry);
                }
            }
            return Outcome.passed();
        });
    }

    private static boolean found(VolumeHeader header) {
        return header.inside() && !Boolean.FALSE.equals(VolumeFacts.known(() -> HfsPlus.signature(header.window())));
    }

    private String problem(Window w) {
        if (!HfsPlus.signature(w)) {
            return "signature " + String.format("%04X", w.u16be(0)) + ", version " + w.u16be(2);
        }
        if (!HfsPlus.plausible(w)) {
            return "blocks of " + w.u32be(40) + " bytes, " + w.u32be(44) + " in all, " + w.u32be(48) + " free";
        }
        if (w.u32be(44) * w.u32be(40) > place.length() + w.u32be(40)) {
            return w.u32be(44) + " blocks of " + w.u32be(40) + " bytes, room for " + place.length() / w.u32be(40);
        }
        if (w.u32be(64) < 16) {
            return "next catalog id " + w.u32be(64);
        }
        for (int fork = 112; fork < 512; fork += 80) {
            long sum = 0;
            for (int i = 0; i < 8; i++) {
                long start = w.u32be(fork + 16 + 8 * i);
                long count = w.u32be(fork + 20 + 8 * i);
                if (start + count > w.u32be(44)) {
                    return "fork at byte " + fork + " reaches block " + (start + count);
                }
                sum += count;
            }
            if (sum > w.u32be(fork + 12)) {
                return "fork at byte " + fork + " has " + sum + " blocks in extents, " + w.u32be(fork + 12) + " in all";
            }
        }
        return null;
    }
}
