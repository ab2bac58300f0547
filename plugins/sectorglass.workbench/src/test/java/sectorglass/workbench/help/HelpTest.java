package sectorglass.workbench.help;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class HelpTest {
    private final Locale before = Locale.getDefault();

    @AfterEach
    void back() {
        Locale.setDefault(before);
    }

    @Test
    void everyPageExistsInBothLanguages() {
        for (Locale locale : new Locale[] {Locale.ENGLISH, Locale.GERMAN}) {
            Locale.setDefault(locale);
            for (String topic : HelpTopics.all()) {
                HelpPage page = HelpPage.of(topic);
                assertFalse(page.text().contains("page."), topic + ": " + page.text());
                assertTrue(page.text().length() > 150, topic + " is empty");
                for (HelpPage.Bold bold : page.bold()) {
                    assertTrue(bold.start() >= 0 && bold.length() > 0 && bold.start() + bold.length() <= page.text().length(), topic);
                }
            }
        }
    }

    @Test
    void markdownBecomesPlainText() {
        HelpPage page = Guide.of("# Head\n\n![picture](x.png)\n\nOne *line* and\nthe **next** [link](y.md) `code`.\n\n- a\n- b\n\n| key | does |\n|---|---|\n"
                + "| F4 | density |\n");
        assertEquals("Head\nOne line and the next link code.\n\u2013 a\n\u2013 b\nkey\tdoes\nF4\tdensity\n", page.text().replaceAll("\n+", "\n"));
        assertTrue(page.bold().stream().anyMatch(b -> page.text().substring(b.start(), b.start() + b.length()).equals("next")));
        assertTrue(page.bold().stream().anyMatch(b -> page.text().substring(b.start(), b.start() + b.length()).equals("F4")));
    }
}
