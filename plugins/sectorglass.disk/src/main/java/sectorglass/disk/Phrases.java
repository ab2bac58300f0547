package sectorglass.disk;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.ResourceBundle;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The reasons, remarks and names of types that engines give in English, in another language. The English pattern of each stands in
 * {@code phrases.properties}, the other one under the same key beside it; <code>{0}</code> stands for what changes. What is not known stays
 * English. JSON keeps the English texts.
 */
public final class Phrases {
    private static final Phrases ENGLISH = new Phrases(Map.of(), List.of());
    private static final Map<Locale, Phrases> MADE = new ConcurrentHashMap<>();
    /** Longer texts are none of the patterns. */
    private static final int LONGEST = 2000;
    private static final int DEEPEST = 3;

    private final Map<String, String> plain;
    private final List<Entry> patterns;

    private record Entry(Pattern english, String other) { }

    private Phrases(Map<String, String> plain, List<Entry> patterns) {
        this.plain = plain;
        this.patterns = patterns;
    }

    /** The phrases of a language; where there are none, texts stay as they are. */
    public static Phrases in(Locale locale) {
        return locale.getLanguage().equals(Locale.GERMAN.getLanguage()) ? MADE.computeIfAbsent(Locale.GERMAN, Phrases::load) : ENGLISH;
    }

    private static Phrases load(Locale locale) {
        ResourceBundle english = bundle(Locale.ROOT);
        ResourceBundle other = bundle(locale);
        Map<String, String> plain = new HashMap<>();
        List<Entry> patterns = new ArrayList<>();
        for (String key : english.keySet()) {
            String from = english.getString(key);
            if (from.contains("{")) {
                patterns.add(new Entry(pattern(from), other.getString(key)));
            } else {
                plain.put(from, other.getString(key));
            }
        }
        // the pattern with the longest fixed text counts
        patterns.sort((a, b) -> b.english.pattern().length() - a.english.pattern().length());
        return new Phrases(Map.copyOf(plain), List.copyOf(patterns));
    }

    static ResourceBundle bundle(Locale locale) {
        return ResourceBundle.getBundle("sectorglass.disk.phrases", locale, Phrases.class.getClassLoader(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    private static Pattern pattern(String english) {
        StringBuilder regex = new StringBuilder();
        for (String part : english.split("(?=\\{\\d})|(?<=\\{\\d})")) {
            regex.append(part.matches("\\{\\d}") ? "(.+)" : Pattern.quote(part));
        }
        return Pattern.compile(regex.toString(), Pattern.DOTALL);
    }

    /** The text in this language, or as it is where it is not known; null stays null. */
    public String of(String english) {
        return of(english, 0);
    }

    private String of(String english, int depth) {
        if (english == null || plain.isEmpty() || english.length() > LONGEST) {
            return english;
        }
        String whole = plain.get(english);
        if (whole != null) {
            return whole;
        }
        for (Entry entry : patterns) {
            Matcher matcher = entry.english.matcher(english);
            if (matcher.matches()) {
                String text = entry.other;
                for (int i = matcher.groupCount(); i >= 1; i--) {
                    // a remark that begins with the volume it is about goes on with another phrase; one that begins with a stage names it by a phrase
                    boolean phrase = entry.other.startsWith("Volume {0}: ") && i == 2 || entry.other.startsWith("{0}: ") && i == 1;
                    String piece = depth < DEEPEST && phrase ? of(matcher.group(i), depth + 1) : matcher.group(i);
                    text = text.replace("{" + (i - 1) + "}", piece);
                }
                return text;
            }
        }
        return english;
    }

    /** Whether the text is one of the phrases; for tests. */
    boolean knows(String english) {
        return plain.containsKey(english) || patterns.stream().anyMatch(entry -> entry.english.matcher(english).matches());
    }
}
