package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

import sectorglass.verify.Rule;
import sectorglass.verify.RuleBook;

/** Compares docs/checks.md with the rules of all bundles, both ways. */
class ChecksTableTest {
    private static final RuleBook BOOK = RuleBook.ofProviders(Locale.ENGLISH);

    /** Columns: id, rule, byte, severity, follows from, source, meaning, advice. */
    private static Map<String, List<String>> table() throws IOException {
        Map<String, List<String>> rows = new TreeMap<>();
        for (String line : Files.readAllLines(Path.of(System.getProperty("house"), "docs/checks.md"))) {
            if (!line.startsWith("|") || line.startsWith("| id ") || line.startsWith("|-") || line.startsWith("| -")) {
                continue;
            }
            List<String> cells = new ArrayList<>();
            for (String cell : line.substring(1, line.lastIndexOf('|')).split("(?<!\\\\)\\|")) {
                cells.add(cell.trim());
            }
            assertEquals(8, cells.size(), line);
            assertEquals(null, rows.put(cells.get(0).replace("`", ""), cells), "twice in the table: " + line);
        }
        return rows;
    }

    @Test
    void theTableAndTheBundlesHoldTheSameRules() throws IOException {
        TreeSet<String> ids = new TreeSet<>();
        BOOK.rules().forEach(rule -> ids.add(rule.id()));
        assertEquals(String.join("\n", ids), String.join("\n", table().keySet()));
        assertFalse(ids.isEmpty());
    }

    @TestFactory
    List<DynamicTest> everyRuleStandsThereWithItsSeverityAndCauses() throws IOException {
        Map<String, List<String>> table = table();
        List<DynamicTest> tests = new ArrayList<>();
        for (Rule rule : BOOK.rules()) {
            tests.add(DynamicTest.dynamicTest(rule.id(), () -> {
                List<String> row = table.get(rule.id());
                assertTrue(row != null, "not in docs/checks.md");
                assertAll(
                        () -> assertEquals(rule.severity().word() + (rule.full() ? " full" : ""), row.get(3).replace(",", "")),
                        () -> assertEquals(new TreeSet<>(rule.followsFrom()),
                                new TreeSet<>(List.of(row.get(4).replace("`", "").replace("–", "").replace("-", "\u0000").trim().isEmpty()
                                        ? new String[0] : row.get(4).replace("`", "").split("[,\\s]+")))),
                        () -> assertFalse(rule.source().isBlank(), "no source"),
                        () -> assertFalse(row.get(6).isBlank(), "no meaning"),
                        () -> assertFalse(row.get(7).isBlank(), "no advice"));
            }));
        }
        return tests;
    }

    @TestFactory
    List<DynamicTest> everyRuleHasItsTextsInEnglishAndGerman() {
        List<DynamicTest> tests = new ArrayList<>();
        RuleBook german = RuleBook.ofProviders(Locale.GERMAN);
        for (Rule rule : BOOK.rules()) {
            tests.add(DynamicTest.dynamicTest(rule.id(), () -> {
                for (String key : List.of("what", "means", "advice")) {
                    String english = BOOK.text(rule.id(), key, Map.of());
                    assertFalse(english.isBlank() || english.equals(rule.id()), key);
                    assertFalse(english.equals(german.text(rule.id(), key, Map.of())), "no German text for " + key);
                }
                assertTrue(BOOK.statement(rule.id()).isPresent(), "no statement");
                assertFalse(BOOK.statement(rule.id()).equals(german.statement(rule.id())), "no German statement");
            }));
        }
        return tests;
    }
}
