package sectorglass.recovery;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

import sectorglass.disk.Disk;
import sectorglass.disk.Sighting;

/** Numbers candidates and volumes and words the reasons. */
final class ResultMaking {
    private final Disk disk;
    private final List<Sighting> all;
    private final List<VolumeDraft> drafts;
    private final Map<Sighting, InsideFile> inFiles;
    private final Map<Sighting, Integer> numbers = new IdentityHashMap<>();
    private final Map<Sighting, Integer> volumes = new IdentityHashMap<>();

    ResultMaking(Disk disk, List<Sighting> all, List<VolumeDraft> drafts, Map<Sighting, InsideFile> inFiles) {
        this.disk = disk;
        this.all = all;
        this.drafts = drafts;
        this.inFiles = inFiles;
    }

    SearchResult result(ScanState scanned) {
        for (int i = 0; i < all.size(); i++) {
            numbers.put(all.get(i), i + 1);
        }
        for (int i = 0; i < drafts.size(); i++) {
            int number = i + 1;
            drafts.get(i).sightings.forEach(s -> volumes.put(s, number));
        }
        List<FoundVolume> found = new ArrayList<>();
        for (VolumeDraft draft : drafts) {
            found.add(volume(draft, found.size() + 1));
        }
        List<Candidate> candidates = all.stream().map(this::candidate).toList();
        List<FoundReason> remarks = new ArrayList<>();
        if (scanned.unreadSectors() > 0) {
            remarks.add(FoundReason.of("unread", scanned.unreadSectors()));
        }
        if (scanned.leftOut() > 0) {
            remarks.add(FoundReason.of("left-out", scanned.leftOut()));
        }
        return new SearchResult(scanned.bytes(), disk.image().sectorSize(), scanned.position(), scanned.unread(), scanned.unreadSectors(),
                candidates, found, scanned.leftOut(), remarks);
    }

    private FoundVolume volume(VolumeDraft draft, int number) {
        List<FoundReason> reasons = draft.reasons;
        counted(reasons, "start", draft.voices(Sighting.UNKNOWN));
        if (draft.sized()) {
            counted(reasons, "size", draft.voices(draft.partitionBytes));
        } else {
            reasons.add(FoundReason.of("no-size"));
        }
        if (!draft.against.isEmpty()) {
            reasons.add(FoundReason.of("votes-against", draft.against.size()));
        }
        if (draft.checks.opened()) {
            reasons.add(FoundReason.of("opened", draft.checks.passed(), draft.checks.failed().size()));
        } else {
            reasons.add(FoundReason.of("not-opened"));
        }
        if (draft.partition > 0) {
            reasons.add(FoundReason.of("listed", draft.partition));
        }
        long beyond = draft.firstByte + draft.partitionBytes - disk.image().bytes();
        if (draft.sized() && beyond > 0) {
            reasons.add(FoundReason.of("beyond-end", beyond));
        }
        if (draft.firstByte < 0) {
            reasons.add(FoundReason.of("before-start", -draft.firstByte));
        }
        return new FoundVolume(number, draft.kind, draft.firstByte, draft.bytes > 0 ? draft.bytes : draft.partitionBytes, draft.partitionBytes,
                draft.label, draft.identity, draft.latest, draft.sightings.stream().map(numbers::get).sorted().toList(), draft.votes, draft.against,
                draft.state, draft.file, draft.partition, draft.checks, draft.overwritten, draft.confidence(), reasons);
    }

    private static void counted(List<FoundReason> reasons, String what, long count) {
        reasons.add(count == 1 ? FoundReason.of("vote-" + what) : FoundReason.of("votes-" + what, count));
    }

    private Candidate candidate(Sighting sighting) {
        int volume = volumes.getOrDefault(sighting, 0);
        InsideFile file = inFiles.get(sighting);
        FoundState state = volume > 0 ? drafts.get(volume - 1).state : file != null ? FoundState.IN_FILE : alone(sighting);
        List<String> reasons = sighting.evidence().stream().map(Sighting.Evidence::reason)
                .sorted(Comparator.comparingInt((Sighting.Reason r) -> -Math.abs(r.points()))).map(Sighting.Reason::key).distinct().toList();
        return new Candidate(numbers.get(sighting), sighting, volume, state, file, sighting.confidence(), reasons);
    }

    /** The state of a sighting that no volume counts: partition maps, most of the time. */
    private FoundState alone(Sighting sighting) {
        long lba = sighting.where().start() / disk.image().sectorSize();
        for (Disk.FoundMap map : disk.maps()) {
            if (map.map().lba() == lba) {
                return map.map().leftover() ? FoundState.LEFTOVER : FoundState.PRESENT;
            }
        }
        if (!Agreement.isMap(sighting.kind())) {
            return FoundState.DOUBTFUL;
        }
        boolean inVolume = drafts.stream().anyMatch(d -> d.state == FoundState.PRESENT && d.sized() && d.range().contains(sighting.where().start()));
        boolean speaks = sighting.votes().stream().anyMatch(v -> drafts.stream()
                .anyMatch(d -> d.state == FoundState.PRESENT && d.firstByte == v.firstByte()));
        boolean home = sighting.evidence().stream().anyMatch(e -> e.reason() == Sighting.Reason.KNOWS_ITS_PLACE);
        return inVolume ? FoundState.LEFTOVER : speaks || home ? FoundState.PRESENT : FoundState.DOUBTFUL;
    }
}
