package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.junit.jupiter.api.Test;

import sectorglass.verify.Rule;

/** The rules' texts: complete in both languages, with the same phrases, and a source for each. */
class RulesTest {

    private static Properties texts(String file) throws Exception {
        Properties properties = new Properties();
        try (InputStream in = PartitionRules.class.getResourceAsStream(file)) {
            properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
        }
        return properties;
    }

    private static Set<String> placeholders(String text) {
        Set<String> all = new TreeSet<>();
        Matcher m = Pattern.compile("\\{(\\w+)\\}").matcher(text);
        while (m.find()) {
            all.add(m.group(1));
        }
        return all;
    }

    @Test
    void everyRuleSpeaksBothLanguages() throws Exception {
        Properties english = texts("texts.properties");
        Properties german = texts("texts_de.properties");
        assertEquals(english.stringPropertyNames(), german.stringPropertyNames());
        for (Rule rule : new PartitionRules().rules()) {
            assertFalse(rule.source().isEmpty(), rule.id());
            for (String key : new String[] {"what", "means", "advice"}) {
                assertFalse(english.getProperty(rule.id() + "." + key, "").isBlank(), rule.id() + "." + key);
                assertFalse(german.getProperty(rule.id() + "." + key, "").isBlank(), rule.id() + "." + key);
            }
        }
        for (String name : english.stringPropertyNames()) {
            Set<String> allowed = placeholders(english.getProperty(name));
            assertEquals(Set.of(), placeholders(german.getProperty(name)).stream().filter(p -> !allowed.contains(p))
                    .collect(java.util.stream.Collectors.toSet()), name);
        }
    }

    @Test
    void typesHaveNames() {
        assertEquals("Linux file system", TypeTable.MBR.name("83"));
        assertEquals(72, TypeTable.MBR.codes().size());
        assertEquals(68, TypeTable.GPT.codes().size());
        assertFalse(TypeTable.GPT.roles("0657fd6d-a4ab-43c4-84e5-0933c84b4f4f").isEmpty());
    }
}
