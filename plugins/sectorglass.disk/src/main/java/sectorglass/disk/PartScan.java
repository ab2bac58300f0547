package sectorglass.disk;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.image.AssembledImage;
import sectorglass.image.AssembledImage.Piece;
import sectorglass.image.AssembledImage.Source;
import sectorglass.image.ByteRange;
import sectorglass.image.ImagePart;
import sectorglass.image.PartOrder;
import sectorglass.image.PartOrder.Follow;
import sectorglass.image.PartOrder.Grid;
import sectorglass.image.Providers;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * Looks for structures in each part of a chunk set at every byte, because parts whose sizes are no multiples of a sector shift what follows
 * them off the sectors as soon as they are in a wrong order. Where structures begin in a part, modulo 512, tells which places it can have;
 * those that know their own place tell it outright; one that begins at the end of a part and is sound only with the beginning of another
 * joins the two. Reads samples: both ends and places between.
 */
final class PartScan {
    /** Bytes read of all parts together, if there are not so many that their ends alone take more. */
    private static final long BUDGET = 32 << 20;
    private static final int SAMPLE = 1 << 16;
    private static final int MOST_LOOKS = 2000;
    /** Confidence from which a structure counts. */
    private static final int SURE = 60;
    /** Parts up to which every pair is tried at borders. */
    private static final int MOST_PAIRED = 256;
    private static final int LARGEST_CROSSING = 1 << 12;
    private static final int MOST_CROSSING = 8;
    /** So many structures at one remainder speak, and so many times as many as at any other. */
    private static final int ENOUGH = 3;
    /** Zeros that no protected structure holds, since fix-ups stand in each of its sectors. */
    private static final int LONG_ZEROS = PartOrder.GRID;

    /** What was found. */
    record Result(List<PartOrder.Sighting> sightings, List<Grid> grids, List<Follow> follows) { }

    /** A signature and who decodes it. */
    private record Wanted(Finder finder, Signature signature) { }

    private final SectorImage image;
    private final List<ImagePart> parts;
    private final PartHomes homes;
    private final List<Wanted> wanted = new ArrayList<>();
    private final boolean[] pairs = new boolean[1 << 16];
    private final List<PartOrder.Sighting> sightings = new ArrayList<>();
    private final List<Grid> grids = new ArrayList<>();
    private final List<Follow> follows = new ArrayList<>();

    PartScan(SectorImage image, List<ImagePart> parts, Disk disk) {
        this.image = image;
        this.parts = parts;
        this.homes = new PartHomes(disk);
        for (Finder finder : Providers.all(Finder.class)) {
            for (Signature signature : finder.signatures()) {
                wanted.add(new Wanted(finder, signature));
                pairs[signature.bytes()[0] & 0xFF | (signature.bytes()[1] & 0xFF) << 8] = true;
            }
        }
    }

    /** Whether sizes of parts shift what follows them off the sectors if their order is wrong. */
    static boolean needed(List<ImagePart> parts) {
        return parts.stream().anyMatch(part -> part.bytes() % PartOrder.GRID != 0);
    }

    Result run() {
        for (int i = 0; i < parts.size(); i++) {
            if (!parts.get(i).missing() && parts.get(i).bytes() > 0) {
                part(i);
            }
        }
        return new Result(sightings, grids, follows);
    }

    private void part(int index) {
        ImagePart part = parts.get(index);
        Map<Integer, Integer> structures = new HashMap<>();
        Map<Integer, String> names = new HashMap<>();
        Map<Integer, Integer> edges = new HashMap<>();
        List<Hit> crossing = new ArrayList<>();
        int looks = 0;
        for (long at : samples(part)) {
            byte[] bytes = new byte[(int) Math.min(SAMPLE, part.start() + part.bytes() - at)];
            SectorStates states = image.read(at, bytes, 0, bytes.length);
            if (!states.allRead() && !states.isRead(at, 1) && !states.isRead(at + bytes.length - 1, 1)) {
                continue;
            }
            if (states.allRead()) { // what was not read is no zero
                edges(bytes, (int) Math.floorMod(at - part.start(), PartOrder.GRID), edges);
            }
            for (Hit hit : hits(bytes, at)) {
                if (looks < MOST_LOOKS) {
                    looks++;
                    look(part, hit, structures, names, crossing);
                }
            }
        }
        Grid grid = leading(index, structures, names);
        grid = grid != null ? grid : leading(index, edges, Map.of());
        if (grid != null) {
            grids.add(grid);
        }
        crossing.stream().limit(MOST_CROSSING).forEach(hit -> join(index, hit));
    }

    /** Where a structure would begin, and what it would be. */
    private record Hit(Wanted wanted, long start) { }

    private void look(ImagePart part, Hit hit, Map<Integer, Integer> structures, Map<Integer, String> names, List<Hit> crossing) {
        long end = part.start() + part.bytes();
        if (hit.start < part.start()) {
            return;
        }
        if (hit.start > end - LARGEST_CROSSING) {
            crossing.add(hit);
        }
        Optional<Sighting> seen = look(image, hit);
        if (seen.isEmpty() || seen.get().confidence() < SURE || hit.start + seen.get().where().length() > end) {
            return;
        }
        int remainder = (int) ((hit.start - part.start()) % PartOrder.GRID);
        structures.merge(remainder, 1, Integer::sum);
        names.putIfAbsent(remainder, name(hit));
        OptionalLong home = homes.of(seen.get(), hit.start);
        if (home.isPresent()) {
            sightings.add(new PartOrder.Sighting(new ByteRange(hit.start, PartOrder.GRID), home.getAsLong(), true, name(hit)));
        }
    }

    private static String name(Hit hit) {
        return hit.wanted.signature.structure();
    }

    /** What stands at a byte of an image, as if a sector began there; its addresses are moved back. */
    private static Optional<Sighting> look(SectorImage below, Hit hit) {
        int off = (int) (hit.start % PartOrder.GRID);
        SectorImage shown = off == 0 ? below : AssembledImage.of(below.name(), PartOrder.GRID,
                List.of(new Piece(0, below.bytes() - off, List.of(new Source(below, off)))));
        return hit.wanted.finder.look(shown, hit.start - off, hit.wanted.signature).map(seen -> moved(seen, off));
    }

    private static Sighting moved(Sighting seen, int by) {
        return new Sighting(seen.kind(), seen.structure(), seen.copy(), new ByteRange(seen.where().start() + by, seen.where().length()), seen.format(),
                seen.params(), seen.count(), seen.stride(), seen.facts(), seen.evidence(),
                seen.votes().stream().map(v -> new Sighting.Vote(v.by(), v.firstByte() + by, v.bytes(), v.weight())).toList(), seen.identity(), seen.latest());
    }

    /** Tries each other part behind one: the structure at its end must be sound with one of them and no other. */
    private void join(int index, Hit hit) {
        if (parts.size() > MOST_PAIRED) {
            return;
        }
        ImagePart part = parts.get(index);
        long end = part.start() + part.bytes();
        int found = -1;
        for (int other = 0; other < parts.size(); other++) {
            ImagePart next = parts.get(other);
            if (other == index || next.missing()) {
                continue;
            }
            long tail = end - hit.start;
            SectorImage pair = AssembledImage.of("", PartOrder.GRID, List.of(new Piece(0, tail, List.of(new Source(image, hit.start))),
                    new Piece(tail, next.bytes(), List.of(new Source(image, next.start())))));
            Optional<Sighting> seen = hit.wanted.finder.look(pair, 0, hit.wanted.signature);
            boolean sound = seen.isPresent() && seen.get().where().end() > tail
                    && seen.get().evidence().stream().anyMatch(e -> e.reason() == Sighting.Reason.CHECKSUM_HOLDS);
            if (sound && found >= 0) {
                return;
            }
            found = sound ? other : found;
        }
        if (found >= 0 && follows.stream().noneMatch(f -> f.part() == index)) {
            follows.add(new Follow(index, found, name(hit)));
        }
    }

    /** First bytes of the samples of a part, ascending. */
    private long[] samples(ImagePart part) {
        long count = Math.max(2, Math.min(BUDGET / SAMPLE / parts.size(), (part.bytes() + SAMPLE - 1) / SAMPLE));
        long last = Math.max(part.start(), part.start() + part.bytes() - SAMPLE);
        long[] all = new long[(int) count];
        for (int i = 0; i < count; i++) {
            all[i] = part.start() + (last - part.start()) / (count - 1) * i;
        }
        all[all.length - 1] = last;
        return Arrays.stream(all).distinct().toArray();
    }

    private List<Hit> hits(byte[] bytes, long at) {
        List<Hit> found = new ArrayList<>();
        for (int i = 0; i + 1 < bytes.length; i++) {
            if (pairs[bytes[i] & 0xFF | (bytes[i + 1] & 0xFF) << 8]) {
                for (Wanted one : wanted) {
                    byte[] sign = one.signature.bytes();
                    if (i + sign.length <= bytes.length && Arrays.equals(bytes, i, i + sign.length, sign, 0, sign.length)) {
                        found.add(new Hit(one, at + i - one.signature.offset()));
                    }
                }
            }
        }
        return found;
    }

    /** Counts where content begins behind long zeros: files begin at clusters. */
    private static void edges(byte[] bytes, int first, Map<Integer, Integer> counts) {
        int zeros = 0;
        for (int i = 0; i < bytes.length; i++) {
            if (bytes[i] == 0) {
                zeros++;
            } else {
                if (zeros >= LONG_ZEROS) {
                    counts.merge((first + i) % PartOrder.GRID, 1, Integer::sum);
                }
                zeros = 0;
            }
        }
    }

    private static Grid leading(int part, Map<Integer, Integer> counts, Map<Integer, String> names) {
        var most = counts.entrySet().stream().max(Map.Entry.comparingByValue()).orElse(null);
        int other = most == null ? 0 : counts.entrySet().stream().filter(e -> e != most && !e.getKey().equals(most.getKey())).mapToInt(Map.Entry::getValue).max().orElse(0);
        boolean clear = most != null && most.getValue() >= ENOUGH && most.getValue() >= ENOUGH * other;
        return clear ? new Grid(part, most.getKey(), most.getValue(), names.getOrDefault(most.getKey(), "content behind zeros")) : null;
    }
}
