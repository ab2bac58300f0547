package sectorglass.partition;

import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.MapProvider;
import sectorglass.disk.Survey;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.image.SectorImage;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/** A survey with the maps of this bundle and no volumes, and its findings. */
record Look(Disk disk, Findings findings) {
    private static final Pattern BAD = Pattern.compile("[{}–]|\\b(problem|cause|other|copy|reason|difference|field)\\.[a-z]");
    private static final RuleBook BOOK = RuleBook.ofProviders(Locale.ENGLISH);

    static Look at(SectorImage image) {
        Survey survey = new Survey(Providers.all(MapProvider.class), List.of());
        Disk disk = survey.disk(image, Progress.NONE);
        Look look = new Look(disk, survey.verify(disk, Level.QUICK, BOOK, Progress.NONE));
        look.findings.all().forEach(Look::worded);
        return look;
    }

    /** No text may show a placeholder, a missing value or the key of a phrase. */
    private static void worded(Finding finding) {
        if (finding.verdict() == Verdict.FAILED) {
            String all = finding.what() + " " + finding.means() + " " + finding.advice();
            if (BAD.matcher(all).find()) {
                throw new AssertionError(finding.check() + ": " + all);
            }
        }
    }

    /** Failed findings of this bundle's rules that stand alone, as {@code rule@byte}. */
    List<String> failed() {
        return ours().filter(f -> f.verdict() == Verdict.FAILED && f.cause() == null).map(f -> f.check() + "@" + f.where().start())
                .toList();
    }

    /** The same without cosmetic ones. */
    List<String> serious() {
        return ours().filter(f -> f.verdict() == Verdict.FAILED && f.cause() == null && f.severity() != Severity.COSMETIC)
                .map(f -> f.check() + "@" + f.where().start()).toList();
    }

    private java.util.stream.Stream<Finding> ours() {
        return findings.all().stream().filter(f -> !f.check().startsWith("disk."));
    }

    List<Finding> of(String rule) {
        return findings.all().stream().filter(f -> f.check().equals(rule)).toList();
    }

    Finding one(String rule) {
        return of(rule).stream().filter(f -> f.verdict() != Verdict.PASSED).findFirst()
                .orElseThrow(() -> new AssertionError("no " + rule + " in " + failed()));
    }

    /** Listed partitions as {@code first+count type}. */
    List<String> partitions() {
        return disk.partitions().stream().map(p -> p.range().first() + "+" + p.range().count() + " " + p.entry().type())
                .collect(Collectors.toList());
    }
}
