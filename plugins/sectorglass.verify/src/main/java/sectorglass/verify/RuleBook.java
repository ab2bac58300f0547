package sectorglass.verify;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

import sectorglass.image.Providers;

/** All rules of all rule sets, by id, with their texts in one language. */
public final class RuleBook {
    private final Map<String, Rule> rules = new TreeMap<>();
    private final Map<String, RuleSet> owners = new HashMap<>();
    private final Locale locale;

    /** @throws IllegalArgumentException if two sets hold the same id */
    public RuleBook(List<RuleSet> sets, Locale locale) {
        this.locale = locale;
        for (RuleSet set : sets) {
            for (Rule rule : set.rules()) {
                if (rules.put(rule.id(), rule) != null) {
                    throw new IllegalArgumentException("two rules are called " + rule.id());
                }
                owners.put(rule.id(), set);
            }
        }
    }

    /** The book of all provided rule sets. */
    public static RuleBook ofProviders(Locale locale) {
        return new RuleBook(Providers.all(RuleSet.class), locale);
    }

    /** All rules in order of their ids. */
    public Collection<Rule> rules() {
        return rules.values();
    }

    /** @throws IllegalArgumentException if there is no such rule: a fault of the checker */
    public Rule rule(String id) {
        Rule rule = rules.get(id);
        if (rule == null) {
            throw new IllegalArgumentException("no rule " + id);
        }
        return rule;
    }

    /** The language of the texts. */
    public Locale locale() {
        return locale;
    }

    /** What the rule asks for, as a statement that says nothing about whether it holds; empty where the rule has none. */
    public Optional<String> statement(String rule) {
        RuleSet owner = owners.get(rule);
        return owner == null ? Optional.empty() : owner.text(rule, "rule", locale);
    }

    /** A text with its placeholders filled; the id where the rule has no such text. */
    public String text(String rule, String key, Map<String, ?> values) {
        RuleSet owner = owners.get(rule);
        String pattern = owner == null ? rule : owner.text(rule, key, locale).orElse(key.equals("what") ? rule : "");
        return fill(pattern, values, rule);
    }

    private String fill(String pattern, Map<String, ?> values, String rule) {
        StringBuilder text = new StringBuilder();
        int at = 0;
        while (at < pattern.length()) {
            int open = pattern.indexOf('{', at);
            int close = open < 0 ? -1 : pattern.indexOf('}', open);
            if (close < 0) {
                return text.append(pattern, at, pattern.length()).toString();
            }
            Object value = values.get(pattern.substring(open + 1, close));
            text.append(pattern, at, open).append(word(value, rule, values));
            at = close + 1;
        }
        return text.toString();
    }

    private String word(Object value, String rule, Map<String, ?> outer) {
        if (value instanceof Phrase phrase) {
            RuleSet owner = owners.get(rule);
            String pattern = owner == null ? null : owner.text(rule, phrase.key(), locale).orElse(null);
            if (pattern == null) {
                return phrase.key();
            }
            Map<String, Object> values = new HashMap<>(outer);
            values.putAll(phrase.values());
            values.values().removeIf(v -> v instanceof Phrase other && other.key().equals(phrase.key()));
            return fill(pattern, values, rule);
        }
        if (value instanceof List<?> several) {
            return several.stream().map(one -> word(one, rule, outer)).collect(java.util.stream.Collectors.joining("; "));
        }
        return value == null ? "–" : value.toString();
    }
}
