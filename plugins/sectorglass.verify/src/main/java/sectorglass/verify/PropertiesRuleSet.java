package sectorglass.verify;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Rules kept in UTF-8 properties files beside a class: {@code rules.properties} holds {@code ID.severity}, {@code ID.source},
 * {@code ID.follows} (ids separated by blanks, optional), {@code ID.covers} and
 * {@code ID.full} ({@code true}, optional); {@code texts.properties} and
 * {@code texts_LANGUAGE.properties} hold {@code ID.what}, {@code ID.means}, {@code ID.advice}; {@code statements.properties} and {@code statements_LANGUAGE.properties}
 * hold {@code ID.rule}, what the rule asks for. A bundle provides an empty subclass.
 */
public abstract class PropertiesRuleSet implements RuleSet {
    private static final String SEVERITY = ".severity";

    private final Map<String, Properties> texts = new ConcurrentHashMap<>();
    private volatile List<Rule> rules;

    /** For subclasses: the files are looked for beside the subclass. */
    protected PropertiesRuleSet() {
    }

    @Override
    public List<Rule> rules() {
        List<Rule> known = rules;
        if (known == null) {
            known = load();
            rules = known;
        }
        return known;
    }

    private List<Rule> load() {
        Properties data = read("rules.properties");
        List<Rule> found = new ArrayList<>();
        for (String key : new TreeSet<>(data.stringPropertyNames())) {
            if (key.endsWith(SEVERITY)) {
                String id = key.substring(0, key.length() - SEVERITY.length());
                String follows = data.getProperty(id + ".follows", "").trim();
                found.add(new Rule(id, Severity.of(data.getProperty(key).trim()), data.getProperty(id + ".source", "").trim(),
                        follows.isEmpty() ? List.of() : List.of(follows.split("\\s+")),
                        Boolean.parseBoolean(data.getProperty(id + ".covers", "false").trim()),
                        Boolean.parseBoolean(data.getProperty(id + ".full", "false").trim())));
            }
        }
        return List.copyOf(found);
    }

    @Override
    public Optional<String> text(String rule, String key, Locale locale) {
        String name = rule + "." + key;
        String language = locale.getLanguage();
        String file = key.equals("rule") ? "statements" : "texts";
        String local = language.isEmpty() || language.equals("en") ? null : texts(file + "_" + language + ".properties").getProperty(name);
        return Optional.ofNullable(local != null ? local : texts(file + ".properties").getProperty(name));
    }

    private Properties texts(String file) {
        return texts.computeIfAbsent(file, this::read);
    }

    private Properties read(String file) {
        Properties properties = new Properties();
        try (InputStream in = getClass().getResourceAsStream(file)) {
            if (in != null) {
                properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(file, e);
        }
        return properties;
    }
}
