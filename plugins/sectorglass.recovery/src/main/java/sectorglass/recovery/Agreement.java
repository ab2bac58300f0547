package sectorglass.recovery;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

import sectorglass.disk.Disk;
import sectorglass.disk.Finder;
import sectorglass.disk.Sighting;
import sectorglass.image.Progress;

/** Brings sightings together that tell of the same volume: votes for one start, split by serial number or UUID. */
final class Agreement {
    /** A single hint makes no volume. */
    private static final int ENOUGH_WEIGHT = 2;
    private static final int MOST_VOLUMES = 500;
    /** Fewer records in a row that belong to nothing are not worth a line. */
    private static final int FEW = 4;

    private final Disk disk;
    private final List<Finder> finders;
    private final List<Sighting> all;
    private final Progress progress;
    /** Sightings of partition maps: they make no volume, but their entries speak for some. */
    private final List<Sighting> maps = new ArrayList<>();

    Agreement(Disk disk, List<Finder> finders, List<Sighting> all, Progress progress) {
        this.disk = disk;
        this.finders = finders;
        this.all = all;
        this.progress = progress;
    }

    SearchResult result(ScanState scanned) {
        List<VolumeDraft> drafts = drafts();
        new DraftOpening(disk, progress).open(drafts);
        adopt(drafts);
        Map<Sighting, InsideFile> inFiles = new Placing(disk, drafts, all, progress).place();
        drafts.sort(Comparator.comparingLong((VolumeDraft d) -> d.firstByte).thenComparingLong(d -> -d.partitionBytes).thenComparing(d -> d.kind));
        return new ResultMaking(disk, all, drafts, inFiles).result(scanned);
    }

    private List<VolumeDraft> drafts() {
        Map<String, Integer> families = new HashMap<>();
        for (int i = 0; i < finders.size(); i++) {
            int family = i;
            finders.get(i).kinds().forEach(kind -> families.putIfAbsent(kind, family));
        }
        Map<Integer, List<Sighting>> byFamily = new LinkedHashMap<>();
        for (Sighting one : all) {
            if (isMap(one.kind())) {
                maps.add(one);
            } else {
                byFamily.computeIfAbsent(families.getOrDefault(one.kind(), -1), k -> new ArrayList<>()).add(one);
            }
        }
        List<VolumeDraft> drafts = new ArrayList<>();
        byFamily.forEach((family, own) -> drafts.addAll(starts(family, own)));
        drafts.sort(Comparator.comparingInt((VolumeDraft d) -> -d.sightings.size()));
        return new ArrayList<>(drafts.subList(0, Math.min(MOST_VOLUMES, drafts.size())));
    }

    /** Records that tell no place of their own are counted to the volume of their kind that they lie in; a lone one in none is no find. */
    private void adopt(List<VolumeDraft> drafts) {
        Set<Sighting> counted = Collections.newSetFromMap(new IdentityHashMap<>());
        drafts.forEach(d -> counted.addAll(d.sightings));
        for (Iterator<Sighting> each = all.iterator(); each.hasNext();) {
            Sighting one = each.next();
            if (one.copy() != Sighting.Copy.RECORDS || counted.contains(one)) {
                continue;
            }
            VolumeDraft home = drafts.stream().filter(d -> d.sized() && d.range().contains(one.where().start())
                    && finders.get(d.family).kinds().contains(one.kind())).min(Comparator.comparingLong(d -> d.range().length())).orElse(null);
            if (home != null) {
                home.sightings.add(one);
            } else if (one.votes().isEmpty() && one.count() < FEW) {
                each.remove();
            }
        }
    }

    static boolean isMap(String kind) {
        return kind.equals("gpt") || kind.equals("mbr") || kind.equals("ebr");
    }

    /** Takes the start with the most weight, then the one with the most weight among what is left, and so on. */
    private List<VolumeDraft> starts(int family, List<Sighting> own) {
        Map<Long, Integer> weights = new HashMap<>();
        Map<Long, List<Sighting>> voters = new HashMap<>();
        for (Sighting one : own) {
            Map<Long, Integer> best = new HashMap<>();
            one.votes().forEach(v -> best.merge(v.firstByte(), v.weight(), Math::max));
            best.forEach((start, weight) -> {
                weights.merge(start, weight, Integer::sum);
                voters.computeIfAbsent(start, k -> new ArrayList<>()).add(one);
            });
        }
        List<Long> order = new ArrayList<>(weights.keySet());
        order.sort(Comparator.comparingInt((Long s) -> -weights.get(s)).thenComparingLong(s -> s));
        Map<Sighting, Boolean> taken = new IdentityHashMap<>();
        List<VolumeDraft> drafts = new ArrayList<>();
        for (long start : order) {
            List<Sighting> free = voters.get(start).stream().filter(s -> !taken.containsKey(s)).toList();
            int weight = free.stream().mapToInt(s -> weight(s, start)).sum();
            if (weight < ENOUGH_WEIGHT) {
                continue;
            }
            free.forEach(s -> taken.put(s, true));
            drafts.addAll(identities(family, start, free));
        }
        return drafts;
    }

    private static int weight(Sighting sighting, long start) {
        return sighting.votes().stream().filter(v -> v.firstByte() == start).mapToInt(Sighting.Vote::weight).max().orElse(0);
    }

    /** Two serial numbers at one start are two volumes: a former one and its successor. */
    private List<VolumeDraft> identities(int family, long start, List<Sighting> voters) {
        Map<String, List<Sighting>> named = new LinkedHashMap<>();
        List<Sighting> nameless = new ArrayList<>();
        for (Sighting one : voters) {
            if (one.identity() == null) {
                nameless.add(one);
            } else {
                named.computeIfAbsent(one.identity(), k -> new ArrayList<>()).add(one);
            }
        }
        List<VolumeDraft> drafts = new ArrayList<>();
        Collection<List<Sighting>> groups = named.isEmpty() ? List.of(nameless) : named.values();
        for (List<Sighting> group : groups) {
            drafts.add(draft(family, start, group));
        }
        if (!named.isEmpty()) {
            VolumeDraft first = drafts.stream().max(Comparator.comparingInt((VolumeDraft d) -> d.hasPrimary() ? 1 : 0)
                    .thenComparingInt(d -> d.sightings.size())).orElseThrow();
            for (Sighting one : nameless) {
                first.sightings.add(one);
            }
            votes(first);
        }
        return drafts;
    }

    private VolumeDraft draft(int family, long start, List<Sighting> sightings) {
        VolumeDraft draft = new VolumeDraft(family, start);
        draft.sightings.addAll(sightings);
        votes(draft);
        return draft;
    }

    /** Counts the votes of the sightings, and of map entries that name the same start. */
    private void votes(VolumeDraft draft) {
        draft.votes.clear();
        draft.maps.clear();
        draft.against.clear();
        Map<Long, Integer> sizes = new HashMap<>();
        List<Sighting.Vote> cast = new ArrayList<>();
        for (Sighting one : draft.sightings) {
            List<Sighting.Vote> here = one.votes().stream().filter(v -> v.firstByte() == draft.firstByte).toList();
            cast.addAll(here);
            here.stream().filter(v -> v.bytes() > 0).mapToLong(Sighting.Vote::bytes).distinct().forEach(size -> sizes.merge(size,
                    here.stream().filter(v -> v.bytes() == size).mapToInt(Sighting.Vote::weight).max().orElse(0), Integer::sum));
        }
        draft.partitionBytes = sizes.entrySet().stream().max(Map.Entry.<Long, Integer>comparingByValue().thenComparing(Map.Entry.comparingByKey()))
                .map(Map.Entry::getKey).orElse(Sighting.UNKNOWN);
        for (Sighting map : maps) {
            List<Sighting.Vote> here = map.votes().stream().filter(v -> v.firstByte() == draft.firstByte).toList();
            if (!here.isEmpty()) {
                cast.addAll(here);
                draft.maps.add(map);
            }
        }
        for (Sighting.Vote vote : cast) {
            (vote.bytes() > 0 && draft.sized() && vote.bytes() < draft.partitionBytes ? draft.against : draft.votes).add(vote);
        }
        Sighting speaker = draft.sightings.stream().max(Comparator.comparingInt((Sighting s) -> s.copy() == Sighting.Copy.PRIMARY ? 1 : 0)
                .thenComparingInt(Sighting::confidence)).orElseThrow();
        draft.kind = speaker.kind();
        draft.identity = draft.sightings.stream().map(Sighting::identity).filter(Objects::nonNull).findFirst().orElse(null);
        draft.latest = draft.sightings.stream().map(Sighting::latest).filter(Objects::nonNull).max(Comparator.naturalOrder()).orElse(null);
        if (speaker.facts().get("label") instanceof String label) {
            draft.label = label;
        }
    }
}
