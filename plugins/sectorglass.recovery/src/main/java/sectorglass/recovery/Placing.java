package sectorglass.recovery;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;

import sectorglass.disk.Disk;
import sectorglass.disk.Partition;
import sectorglass.disk.Sighting;
import sectorglass.disk.Survey;
import sectorglass.disk.Volume;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;

/**
 * Tells which of the volumes are of the disk's present format. What lies in a file of a volume, or in a set member, is part of that.
 * Of two that overlap, the one that the present map lists wins, then the one whose first structure stands and whose checks pass, then the
 * one with the later date; where nothing decides, both are doubtful.
 */
final class Placing {
    /** The files of so many volumes are asked at most. */
    private static final int MOST_HOLDERS = 64;

    private final Survey survey = Survey.ofProviders();
    private final Disk disk;
    private final List<VolumeDraft> drafts;
    private final List<Sighting> all;
    private final Progress progress;

    Placing(Disk disk, List<VolumeDraft> drafts, List<Sighting> all, Progress progress) {
        this.disk = disk;
        this.drafts = drafts;
        this.all = all;
        this.progress = progress;
    }

    /** Sets the states of the drafts; gives the files in which sightings lie. */
    Map<Sighting, InsideFile> place() {
        Map<Sighting, InsideFile> inFiles = files();
        for (VolumeDraft draft : drafts) {
            for (Sighting one : draft.sightings) {
                InsideFile file = inFiles.get(one);
                if (file != null && draft.partition == 0 && one.where().start() >= draft.firstByte) {
                    draft.file = file;
                    draft.state = FoundState.IN_FILE;
                }
            }
            if (draft.file != null) {
                draft.reasons.add(FoundReason.of("in-file", draft.file.path(), draft.file.kind(), draft.file.volumeByte()));
            }
        }
        List<VolumeDraft> bySize = new ArrayList<>(drafts);
        bySize.sort(Comparator.comparingLong((VolumeDraft d) -> -d.range().length()));
        for (int i = 0; i < bySize.size(); i++) {
            for (int j = i + 1; j < bySize.size(); j++) {
                progress.checkCancelled();
                VolumeDraft large = bySize.get(i);
                VolumeDraft small = bySize.get(j);
                if (large.range().overlaps(small.range()) && open(large) && open(small)) {
                    overlap(large, small);
                }
            }
        }
        return inFiles;
    }

    private static boolean open(VolumeDraft draft) {
        return draft.state == FoundState.PRESENT || draft.state == FoundState.DOUBTFUL;
    }

    private void overlap(VolumeDraft large, VolumeDraft small) {
        if (large.container && large.sized() && large.range().contains(small.range())) {
            small.state = FoundState.IN_CONTAINER;
            small.reasons.add(FoundReason.of("in-container", large.kind, lba(large.firstByte)));
        } else if (small.container && small.range().contains(large.range())) {
            large.state = FoundState.IN_CONTAINER;
            large.reasons.add(FoundReason.of("in-container", small.kind, lba(small.firstByte)));
        } else if (large.identity != null && large.identity.equals(small.identity) && large.family == small.family
                && large.firstByte != small.firstByte) {
            VolumeDraft real = large.sightings.size() >= small.sightings.size() ? large : small;
            beaten(real, real == large ? small : large, "copy-of");
        } else {
            int difference = rank(large) - rank(small);
            Instant a = large.latest;
            Instant b = small.latest;
            if (Math.abs(difference) >= 2) {
                beaten(difference > 0 ? large : small, difference > 0 ? small : large, "more-whole-over");
            } else if (a != null && b != null && !a.equals(b)) {
                beaten(a.isAfter(b) ? large : small, a.isAfter(b) ? small : large, "newer-over");
            } else if (difference != 0) {
                beaten(difference > 0 ? large : small, difference > 0 ? small : large, "more-whole-over");
            } else {
                doubtful(large, small);
                doubtful(small, large);
            }
        }
    }

    private static int rank(VolumeDraft draft) {
        return (draft.partition > 0 ? 4 : 0) + (draft.hasPrimary() ? 2 : 0) + (draft.checks.opened() ? 1 : 0)
                + (draft.checks.opened() && draft.checks.failed().isEmpty() ? 1 : 0);
    }

    private void beaten(VolumeDraft winner, VolumeDraft loser, String reason) {
        loser.state = FoundState.LEFTOVER;
        loser.reasons.add(FoundReason.of(reason, winner.kind, lba(winner.firstByte)));
        long from = Math.max(winner.range().start(), loser.range().start());
        long to = Math.min(winner.range().end(), loser.range().end());
        loser.overwritten.add(new ByteRange(from, to - from));
    }

    private void doubtful(VolumeDraft one, VolumeDraft other) {
        one.state = FoundState.DOUBTFUL;
        one.reasons.add(FoundReason.of("overlaps", other.kind, lba(other.firstByte)));
    }

    private long lba(long imageByte) {
        return Math.floorDiv(imageByte, (long) disk.image().sectorSize());
    }

    /** Looks in the files of every volume that holds sightings which are not its own, the largest volumes first. */
    private Map<Sighting, InsideFile> files() {
        Map<Sighting, InsideFile> found = new IdentityHashMap<>();
        for (Holder holder : holders()) {
            progress.checkCancelled();
            List<Sighting> foreign = all.stream().filter(s -> !found.containsKey(s) && !holder.own.contains(s)
                    && s.where().start() > holder.range.start() && s.where().start() < holder.range.end()).toList();
            if (!foreign.isEmpty()) {
                Volume volume = holder.volume.get();
                if (volume != null) {
                    found.putAll(new FileOwners(volume).of(foreign, progress));
                }
            }
        }
        return found;
    }

    /** A volume whose files may hold structures. */
    private record Holder(Supplier<Volume> volume, ByteRange range, Set<Sighting> own) { }

    private List<Holder> holders() {
        List<Holder> holders = new ArrayList<>();
        for (VolumeDraft draft : drafts) {
            if (draft.site != null && draft.sized() && draft.checks.passed() > draft.checks.failed().size()) {
                Set<Sighting> own = Collections.newSetFromMap(new IdentityHashMap<>());
                own.addAll(draft.sightings);
                holders.add(new Holder(() -> survey.recognise(draft.site).orElse(null), draft.range(), own));
            }
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null) {
                listed(holders, partition.volume());
            }
        }
        if (disk.volume() != null) {
            listed(holders, disk.volume());
        }
        holders.sort(Comparator.comparingLong((Holder h) -> -h.range.length()));
        return holders.subList(0, Math.min(MOST_HOLDERS, holders.size()));
    }

    private void listed(List<Holder> holders, Volume volume) {
        ByteRange range = volume.site().range().bytes(disk.image().sectorSize());
        if (holders.stream().noneMatch(h -> h.range.start() == range.start())) {
            holders.add(new Holder(() -> volume, range, Set.of()));
        }
    }
}
