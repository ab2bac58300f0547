package sectorglass.verify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.UnreadException;

class FindingsTest {
    private static final RuleSet RULES = new RuleSet() {
        @Override
        public List<Rule> rules() {
            return List.of(new Rule("x.size", Severity.UNUSABLE, "standard, 1", List.of(), false, false),
                    new Rule("x.crc", Severity.UNUSABLE, "standard, 2", List.of("x.size"), false, false),
                    new Rule("x.entry", Severity.AT_RISK, "standard, 3", List.of("x.crc", "y.*"), false, false),
                    new Rule("y.signature", Severity.COSMETIC, "standard, 4", List.of(), false, false),
                    new Rule("z.shift", Severity.AT_RISK, "standard, 5", List.of(), true, false));
        }

        @Override
        public Optional<String> text(String rule, String key, Locale locale) {
            return Optional.of(key.equals("what") ? rule + " at {lba}+{byte}: {stored} for {computed} in slot {slot}" : key);
        }
    };
    private static final RuleBook BOOK = new RuleBook(List.of(RULES), Locale.ENGLISH);
    private static final ByteRange HEADER = new ByteRange(512, 512);

    private static Findings of(Checks checks) {
        return Findings.of(checks, BOOK, 512);
    }

    @Test
    void sortsByAddressNumbersAndFillsTexts() {
        Checks checks = new Checks();
        checks.report("y.signature", new ByteRange(2000, 2), Outcome.passed());
        checks.report("x.size", new ByteRange(524, 4), Outcome.failed(91, "92 to 512").with("slot", 3));
        Findings findings = of(checks);
        Finding first = findings.all().get(0);
        assertEquals(1, first.id());
        assertEquals("x.size at 1+12: 91 for 92 to 512 in slot 3", first.what());
        assertEquals(Severity.UNUSABLE, first.severity());
        assertEquals(new Findings.Counts(1, 0, 0, 0, 1), findings.counts());
        assertEquals(List.of(first), findings.listed());
    }

    @Test
    void oneCauseIsOneFindingByWhatTheCheckerSays() {
        Checks checks = new Checks();
        Mark cause = checks.report("y.signature", new ByteRange(5000, 2), Outcome.failed("a", "b"));
        checks.report("x.size", new ByteRange(0, 4), Outcome.undecided("y decides").because(cause));
        Findings findings = of(checks);
        assertEquals(1, findings.listed().size());
        assertEquals(2, findings.listed().get(0).count());
        assertEquals(findings.listed().get(0).id(), findings.all().get(0).cause());
    }

    @Test
    void oneCauseIsOneFindingByTheRulesOfOneStructure() {
        Checks checks = new Checks();
        Checks header = checks.in(HEADER);
        header.report("x.size", new ByteRange(524, 4), Outcome.failed(91, 92));
        header.report("x.crc", new ByteRange(528, 4), Outcome.undecided("size"));
        header.report("x.entry", new ByteRange(600, 4), Outcome.failed(1, 2));
        checks.in(new ByteRange(9000 * 512L, 512)).report("x.crc", new ByteRange(9000 * 512L + 16, 4), Outcome.failed(1, 2));
        Findings findings = of(checks);
        // the chain entry - crc - size is followed to its root; the other structure keeps its own finding
        assertEquals(List.of("x.size", "x.crc"), findings.listed().stream().map(Finding::check).toList());
        assertEquals(3, findings.listed().get(0).count());
        assertEquals(1, findings.listed().get(1).count());
        assertEquals(new Findings.Counts(2, 0, 0, 0, 0), findings.counts());
    }

    @Test
    void whatCoversTheRestExplainsEveryFailingBehindIt() {
        Checks checks = new Checks();
        checks.report("z.shift", new ByteRange(4096, 512), Outcome.failed("a", "b"));
        checks.report("y.signature", new ByteRange(512, 2), Outcome.failed("a", "b"));
        checks.report("y.signature", new ByteRange(9000, 2), Outcome.failed("a", "b"));
        checks.report("x.size", new ByteRange(9000, 4), Outcome.passed());
        Findings findings = of(checks);
        assertEquals(List.of("y.signature", "z.shift"), findings.listed().stream().map(Finding::check).toList());
        assertEquals(2, findings.listed().get(1).count());
    }

    @Test
    void whatPassesCausesNothing() {
        Checks checks = new Checks();
        Mark passed = checks.in(HEADER).report("x.size", new ByteRange(524, 4), Outcome.passed());
        checks.in(HEADER).report("x.crc", new ByteRange(528, 4), Outcome.failed(1, 2).because(passed));
        assertNull(of(checks).listed().get(0).cause());
    }

    @Test
    void unreadBytesAreNotCheckedWithTheirSectors() {
        Checks checks = new Checks().volume(2);
        Mark mark = checks.check("x.crc", HEADER, () -> {
            throw new UnreadException(SectorRanges.of(1, 3));
        });
        assertEquals(Verdict.NOT_CHECKED, mark.verdict());
        Finding finding = of(checks).listed().get(0);
        assertEquals(SectorRanges.of(1, 3), finding.missing());
        assertNull(finding.severity());
        assertEquals(2, finding.volume());
        assertTrue(finding.reason().contains("3"), finding.reason());
        assertNull(checks.check("x.crc", HEADER, () -> null), "a rule that does not apply reports nothing");
        assertEquals(1, checks.size());
    }

    @Test
    void aRuleNobodyHoldsIsAFaultOfTheChecker() {
        Checks checks = new Checks();
        checks.report("no.rule", HEADER, Outcome.passed());
        assertThrows(IllegalArgumentException.class, () -> of(checks));
        assertThrows(IllegalArgumentException.class, () -> new RuleBook(List.of(RULES, RULES), Locale.ENGLISH));
    }

    @Test
    void theSameVerdictsGiveTheSameFindingsWhateverTheOrderTheyCameIn() {
        Checks one = new Checks();
        Checks other = new Checks();
        List<Runnable> reports = List.of(
                () -> { },
                () -> one.in(HEADER).report("x.size", new ByteRange(524, 4), Outcome.failed(1, 2)),
                () -> one.in(HEADER).report("x.crc", new ByteRange(528, 4), Outcome.failed(3, 4)));
        reports.forEach(Runnable::run);
        other.in(HEADER).report("x.crc", new ByteRange(528, 4), Outcome.failed(3, 4));
        other.in(HEADER).report("x.size", new ByteRange(524, 4), Outcome.failed(1, 2));
        assertEquals(of(one).all(), of(other).all());
    }

    @Test
    void phrasesOfValuesAreToldInTheLanguageOfTheBookAndQuotedTextStays() {
        ValueWords german = ValueWords.of(Locale.GERMAN);
        assertEquals("höchstens 12 Sektoren", german.say("at most 12 sectors"));
        assertEquals("3 Einträge, Platz für 2", german.say("3 entries, room for 2"));
        assertEquals("der Name \"at most 2 sectors\"", german.say("the name \"at most 2 sectors\""));
        assertEquals("dc12b50e-bad-4b8b 0xC039B243 free.txt", german.say("dc12b50e-bad-4b8b 0xC039B243 free.txt"));
        assertNull(german.say(null));
        assertEquals("at most 12 sectors", ValueWords.of(Locale.ENGLISH).say("at most 12 sectors"));
    }
}
