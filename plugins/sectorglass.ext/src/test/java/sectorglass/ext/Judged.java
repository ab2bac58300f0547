package sectorglass.ext;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

import sectorglass.disk.Claim;
import sectorglass.disk.Level;
import sectorglass.disk.Volume;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/** A volume and the findings of its full check. */
record Judged(Volume volume, Findings findings) {
    private static final RuleBook BOOK = new RuleBook(List.of(new ExtRules()), Locale.ROOT);

    static Volume open(TestImage image) {
        Optional<Claim> claim = new ExtVolumes().recognise(image.site());
        return new ExtVolumes().open(claim.orElseGet(() -> new Claim("ext2", 1, image.site(), "forced", 1024L)));
    }

    static Judged full(TestImage image) {
        return at(image, Level.FULL);
    }

    static Judged at(TestImage image, Level level) {
        Volume volume = open(image);
        Checks checks = new Checks();
        volume.check(level, checks);
        return new Judged(volume, Findings.of(checks, BOOK, 512));
    }

    /** Ids of rules that failed, causes only. */
    List<String> failed() {
        return findings.listed().stream().filter(f -> f.verdict() == Verdict.FAILED).map(Finding::check).toList();
    }

    List<String> undecided() {
        return findings.listed().stream().filter(f -> f.verdict() == Verdict.NOT_CHECKED).map(Finding::check).toList();
    }

    /** For messages. */
    String text() {
        StringBuilder text = new StringBuilder();
        findings.listed().forEach(f -> text.append(f.check()).append(' ').append(f.verdict()).append(" x").append(f.count()).append(" @")
                .append(f.where()).append(": ").append(f.what()).append(f.reason() == null ? "" : " / " + f.reason()).append('\n'));
        return text.toString();
    }
}
