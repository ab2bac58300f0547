package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.VolumeHeader;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Compares the allocation file with the header and with what the files own. Source: Apple TN1150, "Allocation File". */
final class HfsBlockChecks {
    private static final int MOST_OVERLAPS = 100;

    private final HfsLayout layout;
    private final HfsBitmap bitmap;
    private final Checks all;
    private final VolumeHeader first;

    HfsBlockChecks(HfsLayout layout, Checks all) {
        this.layout = layout;
        this.bitmap = new HfsBitmap(layout);
        this.all = all;
        this.first = new VolumeHeader(layout.site, layout.place.start() + layout.place.header(), 512);
    }

    /** Only the sum of free blocks. */
    void sum(Progress progress) {
        if (!bitmap.holdsAll()) {
            return;
        }
        all.in(first.whole()).check("hfs.bitmap.free-count", first.range(48, 4), () -> {
            long[] used = {0};
            List<SectorRange> missing = new ArrayList<>();
            bitmap.read((block, bytes, bits, where) -> {
                for (int i = 0; i < bits; i += 8) {
                    used[0] += Integer.bitCount(bytes[i >> 3] & 0xFF00 >> Math.min(8, bits - i) & 0xFF);
                }
            }, missing, progress);
            return missing.isEmpty() ? layout.settled(layout.blocks - used[0] == layout.header.u32be(48), layout.header.u32be(48),
                    layout.blocks - used[0]) : Outcome.unread(SectorRanges.of(missing));
        });
    }

    /**
     * Owners against each other and against the bitmap.
     *
     * @param claims all that was read, in order
     * @param unread sectors of trees that were not read
     * @param whole whether all trees were read and are sound
     * @param fault why not all owners are known, or null
     */
    void owners(HfsClaims claims, SectorRanges unread, boolean whole, Mark fault, Progress progress) {
        ByteRange volume = layout.range(0, 1);
        if (claims.tooMany()) {
            all.in(volume).report("hfs.bitmap.owned-once", volume, Outcome.undecided("more extents than are compared"));
            return;
        }
        boolean once = overlaps(claims, unread, whole, fault);
        if (!bitmap.holdsAll()) {
            return;
        }
        long[] missed = {0, -1};
        long[] lost = {0, -1};
        ByteRange[] at = new ByteRange[2];
        Merged merged = new Merged(claims);
        long tail = claims.alternateInTail() ? layout.blocks : claims.tail();
        List<SectorRange> missing = new ArrayList<>();
        bitmap.read((block, bytes, bits, where) -> {
            byte[] owned = merged.owned(block, bits);
            for (int i = 0; i < bits; i++) {
                boolean bit = (bytes[i >> 3] & 0x80 >> (i & 7)) != 0;
                boolean owner = (owned[i >> 3] & 0x80 >> (i & 7)) != 0;
                if (bit != owner && (owner || block + i < tail)) {
                    count(owner ? missed : lost, block + i);
                    int which = owner ? 0 : 1;
                    at[which] = at[which] == null ? new ByteRange(where.start() + (i >> 3), 1) : at[which];
                }
            }
        }, missing, progress);
        report("hfs.bitmap.marked", missed, at[0], "owned, but free in the bitmap", SectorRanges.of(missing), null);
        SectorRanges gaps = SectorRanges.of(missing).union(unread);
        if (whole && gaps.isEmpty() && once) {
            report("hfs.bitmap.leaked", lost, at[1], "used in the bitmap, but owned by nobody", SectorRanges.EMPTY, null);
        } else if (lost[0] > 0 || !gaps.isEmpty()) {
            all.in(volume).report("hfs.bitmap.leaked", volume, !gaps.isEmpty() ? Outcome.unread(gaps)
                    : Outcome.undecided("not every owner is known").because(fault));
        }
    }

    private static void count(long[] sum, long block) {
        sum[1] = sum[0]++ == 0 ? block : sum[1];
    }

    private void report(String rule, long[] sum, ByteRange at, String what, SectorRanges missing, Mark cause) {
        ByteRange where = at != null ? at : layout.range(0, 1);
        all.in(where).report(rule, where, sum[0] > 0 ? layout.settled(false, (sum[0] == 1 ? "block " + sum[1] + " is "
                : sum[0] + " blocks, the first of them " + sum[1] + ", are ") + what, "none")
                .because(cause) : missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing));
    }

    /** Claims joined where they touch or overlap, so that each block is looked at once. */
    private static final class Merged {
        private final LongList starts = new LongList();
        private final LongList ends = new LongList();
        private int next;

        Merged(HfsClaims claims) {
            long start = -1;
            long end = -1;
            for (int i = 0; i < claims.size(); i++) {
                if (claims.start(i) > end) {
                    add(start, end);
                    start = claims.start(i);
                }
                end = Math.max(end, claims.start(i) + claims.count(i));
            }
            add(start, end);
        }

        private void add(long start, long end) {
            if (start >= 0) {
                starts.add(start);
                ends.add(end);
            }
        }

        /** Bits of the blocks that somebody owns; pieces are asked for in order. */
        byte[] owned(long block, int bits) {
            byte[] owned = new byte[(bits + 7) / 8];
            while (next < starts.size() && ends.get(next) <= block) {
                next++;
            }
            for (int at = next; at < starts.size() && starts.get(at) < block + bits; at++) {
                long to = Math.min(block + bits, ends.get(at)) - block;
                for (long i = Math.max(0, starts.get(at) - block); i < to; i++) {
                    if ((i & 7) == 0 && to - i >= 8) {
                        owned[(int) (i >> 3)] = -1;
                        i += 7;
                    } else {
                        owned[(int) (i >> 3)] |= (byte) (0x80 >> (i & 7));
                    }
                }
            }
            return owned;
        }
    }

    private boolean overlaps(HfsClaims claims, SectorRanges unread, boolean whole, Mark fault) {
        long end = 0;
        int widest = -1;
        int found = 0;
        for (int i = 0; i < claims.size(); i++) {
            if (widest >= 0 && claims.start(i) < end && found++ < MOST_OVERLAPS) {
                long count = Math.min(end, claims.start(i) + claims.count(i)) - claims.start(i);
                ByteRange where = layout.range(claims.start(i), count);
                all.in(where).report("hfs.bitmap.owned-once", where, layout.settled(false, "blocks " + claims.start(i) + " to "
                        + (claims.start(i) + count - 1) + " of " + claims.owner(widest) + " and " + claims.owner(i), "one owner").because(fault));
            }
            if (claims.start(i) + claims.count(i) > end) {
                end = claims.start(i) + claims.count(i);
                widest = i;
            }
        }
        if (found == 0) {
            ByteRange where = layout.range(0, 1);
            all.in(where).report("hfs.bitmap.owned-once", where, !unread.isEmpty() ? Outcome.unread(unread)
                    : whole ? Outcome.passed() : Outcome.undecided("not every owner is known").because(fault));
        }
        return found == 0;
    }
}
