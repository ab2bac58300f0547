package sectorglass.verify;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The rules of one format family; a provider. Usually a {@link PropertiesRuleSet}. */
public interface RuleSet {

    /** The rules, each id once. */
    List<Rule> rules();

    /**
     * A text of a rule, with placeholders in braces that {@link Checks} fills.
     *
     * @param rule id of one of {@link #rules()}
     * @param key {@code rule} (what it asks for, a statement without placeholders), {@code what}, {@code means} or {@code advice}
     */
    Optional<String> text(String rule, String key, Locale locale);
}
