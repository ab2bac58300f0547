package sectorglass.tests;

import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/** Every verdict of one run, by rule and address, before findings are folded. */
final class Verdicts {
    static final RuleBook BOOK = RuleBook.ofProviders(Locale.ENGLISH);

    private final List<Finding> all;
    private final Set<String> rules = new TreeSet<>();
    private final Map<Place, Set<Verdict>> exact = new HashMap<>();
    private final Map<Place, Set<Verdict>> structures = new HashMap<>();

    /** A rule at an address. */
    private record Place(String check, ByteRange range) { }

    private Verdicts(List<Finding> all) {
        this.all = all;
        for (Finding f : all) {
            rules.add(f.check());
            exact.computeIfAbsent(new Place(f.check(), f.where()), p -> EnumSet.noneOf(Verdict.class)).add(f.verdict());
            structures.computeIfAbsent(new Place(f.check(), f.structure()), p -> EnumSet.noneOf(Verdict.class)).add(f.verdict());
        }
    }

    static Verdicts of(SectorImage image, Level level) {
        Disk disk = Survey.of(image, Progress.NONE);
        Findings findings = Survey.ofProviders().verify(disk, level, BOOK, Progress.NONE);
        return new Verdicts(findings.all());
    }

    List<Finding> all() {
        return all;
    }

    /** The verdicts of the same rule at the same bytes; else of the same structure, since a failing may point at one byte of it. */
    Set<Verdict> like(Finding finding) {
        Set<Verdict> here = exact.get(new Place(finding.check(), finding.where()));
        return here != null ? here : structures.getOrDefault(new Place(finding.check(), finding.structure()), Set.of());
    }

    /** Whether the rule failed at these bytes or in this structure. */
    boolean failed(Finding finding) {
        return exact.getOrDefault(new Place(finding.check(), finding.where()), Set.of()).contains(Verdict.FAILED)
                || structures.getOrDefault(new Place(finding.check(), finding.structure()), Set.of()).contains(Verdict.FAILED);
    }

    Set<String> rules() {
        return rules;
    }
}
