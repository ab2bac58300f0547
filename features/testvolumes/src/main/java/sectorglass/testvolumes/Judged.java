package sectorglass.testvolumes;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import sectorglass.disk.Level;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeProvider;
import sectorglass.image.Providers;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/**
 * A volume and the findings of its check.
 *
 * @param volume the volume
 * @param findings by the rules of the bundles on the class path
 */
public record Judged(Volume volume, Findings findings) {

    /** The image as the file system on the class path opens it that is surest of it. */
    public static Optional<Volume> open(DiskFile image) {
        return Providers.all(VolumeProvider.class).stream()
                .flatMap(p -> p.recognise(image.site()).map(claim -> java.util.Map.entry(p, claim)).stream())
                .max(Comparator.comparingInt(e -> e.getValue().confidence())).map(e -> e.getKey().open(e.getValue()));
    }

    /** The full check of the image as the best claim opens it. */
    public static Judged full(DiskFile image) {
        return of(open(image).orElseThrow(), Level.FULL);
    }

    /** A check of a volume. */
    public static Judged of(Volume volume, Level level) {
        Checks checks = new Checks();
        volume.check(level, checks);
        return new Judged(volume, Findings.of(checks, RuleBook.ofProviders(Locale.ROOT), volume.site().image().sectorSize()));
    }

    /** Ids of rules that failed, causes only. */
    public List<String> failed() {
        return findings.listed().stream().filter(f -> f.verdict() == Verdict.FAILED).map(Finding::check).toList();
    }

    /** Ids of rules that could not be checked, causes only. */
    public List<String> undecided() {
        return findings.listed().stream().filter(f -> f.verdict() == Verdict.NOT_CHECKED).map(Finding::check).toList();
    }

    /** Whether the rule passed somewhere. */
    public boolean passed(String rule) {
        return findings.all().stream().anyMatch(f -> f.check().equals(rule) && f.verdict() == Verdict.PASSED);
    }

    /** For messages. */
    public String text() {
        StringBuilder text = new StringBuilder();
        findings.listed().forEach(f -> text.append(f.check()).append(' ').append(f.verdict()).append(" x").append(f.count()).append(" @")
                .append(f.where()).append(": ").append(f.what()).append(f.reason() == null ? "" : " / " + f.reason()).append('\n'));
        return text.toString();
    }
}
