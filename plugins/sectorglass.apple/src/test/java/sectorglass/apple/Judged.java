package sectorglass.apple;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import sectorglass.disk.Claim;
import sectorglass.disk.Level;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeProvider;
import sectorglass.image.Providers;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/** A volume as the best claim opens it, and the findings of its full check. */
record Judged(Volume volume, Findings findings) {
    private static final RuleBook BOOK = new RuleBook(List.of(new AppleRules()), Locale.ROOT);

    static Optional<Volume> open(TestImage image) {
        return Providers.all(VolumeProvider.class).stream()
                .flatMap(p -> p.recognise(image.site()).map(claim -> java.util.Map.entry(p, claim)).stream())
                .max(Comparator.comparingInt(e -> e.getValue().confidence())).map(e -> open(e.getKey(), e.getValue()));
    }

    private static Volume open(VolumeProvider provider, Claim claim) {
        return provider.open(claim);
    }

    static Judged full(TestImage image) {
        Volume volume = open(image).orElseThrow();
        Checks checks = new Checks();
        volume.check(Level.FULL, checks);
        return new Judged(volume, Findings.of(checks, BOOK, 512));
    }

    List<String> failed() {
        return findings.listed().stream().filter(f -> f.verdict() == Verdict.FAILED).map(Finding::check).toList();
    }

    boolean passed(String rule) {
        return findings.all().stream().anyMatch(f -> f.check().equals(rule) && f.verdict() == Verdict.PASSED);
    }

    String text() {
        StringBuilder text = new StringBuilder();
        findings.listed().forEach(f -> text.append(f.check()).append(' ').append(f.verdict()).append(" x").append(f.count()).append(" @")
                .append(f.where()).append(": ").append(f.what()).append(f.reason() == null ? "" : " / " + f.reason()).append('\n'));
        return text.toString();
    }
}
