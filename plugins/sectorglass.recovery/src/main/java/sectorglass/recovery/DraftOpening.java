package sectorglass.recovery;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Partition;
import sectorglass.disk.Role;
import sectorglass.disk.Sighting;
import sectorglass.disk.Survey;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/** Opens volumes where their sightings say they lie and lets them judge themselves: nothing is believed that its own checks refute. */
final class DraftOpening {
    /** The most promising ones are opened; no disk has so many volumes. */
    private static final int MOST = 200;

    private final Disk disk;
    private final SectorImage image;
    private final Progress progress;
    private final Survey survey = Survey.ofProviders();
    private final RuleBook book = RuleBook.ofProviders(Locale.ENGLISH);

    DraftOpening(Disk disk, Progress progress) {
        this.disk = disk;
        this.image = disk.image();
        this.progress = progress;
    }

    void open(List<VolumeDraft> drafts) {
        drafts.sort(Comparator.comparingInt((VolumeDraft d) -> -d.confidence()).thenComparingLong(d -> d.firstByte));
        int count = Math.min(MOST, drafts.size());
        for (int i = 0; i < count; i++) {
            progress.checkCancelled();
            progress.at("volumes", i, count);
            open(drafts.get(i), drafts);
        }
    }

    private void open(VolumeDraft draft, List<VolumeDraft> drafts) {
        disk.partitions().stream().filter(p -> p.range().first() * image.sectorSize() == draft.firstByte).findFirst()
                .map(Partition::number).ifPresent(n -> draft.partition = n);
        int size = image.sectorSize();
        if (draft.firstByte < 0 || draft.firstByte % size != 0 || draft.firstByte / size >= image.sectors()) {
            return;
        }
        long first = draft.firstByte / size;
        long room = draft.sized() ? (draft.partitionBytes + size - 1) / size : room(draft, drafts) / size - first;
        VolumeSite site = new VolumeSite(image, new SectorRange(first, Math.max(1, room)), null);
        Volume volume = survey.recognise(site).orElse(null);
        if (volume == null || draft.sightings.stream().noneMatch(s -> s.kind().equals(volume.info().kind()))) {
            return;
        }
        draft.site = site;
        draft.kind = volume.info().kind();
        draft.bytes = volume.info().bytes() == null ? Sighting.UNKNOWN : volume.info().bytes();
        draft.label = volume.info().label() != null ? volume.info().label() : volume.info().bootLabel() != null ? volume.info().bootLabel() : draft.label;
        if (draft.identity == null) {
            draft.identity = volume.info().uuid() != null ? volume.info().uuid() : volume.info().serial();
        }
        draft.latest = later(draft.latest, volume.info().latest());
        draft.container = volume.roles().stream().anyMatch(r -> r.role() == Role.Kind.SET_MEMBER || r.role() == Role.Kind.ENCRYPTED);
        check(draft, volume);
    }

    private void check(VolumeDraft draft, Volume volume) {
        Checks checks = new Checks();
        volume.check(Level.QUICK, checks);
        Findings findings = Findings.of(checks, book, image.sectorSize());
        List<String> failed = findings.all().stream()
                .filter(f -> f.verdict() == Verdict.FAILED && f.cause() == null && f.severity() != Severity.COSMETIC).map(Finding::check)
                .distinct().limit(20).toList();
        draft.checks = new FoundVolume.Checked(true, findings.counts().passed(), failed, findings.counts().notChecked());
    }

    /** Image byte where the room of a volume of unknown size ends: at the next one, or at the end of the image. */
    private long room(VolumeDraft draft, List<VolumeDraft> drafts) {
        return drafts.stream().filter(d -> d.firstByte > draft.firstByte).mapToLong(d -> d.firstByte).min().orElse(image.bytes());
    }

    static Instant later(Instant a, Instant b) {
        return a == null ? b : b == null || a.isAfter(b) ? a : b;
    }
}
