package sectorglass.workbench.help;

import java.util.ArrayList;
import java.util.List;

import sectorglass.workbench.look.Texts;

/**
 * A page of the help as text with bold stretches. Pages are written in lines apart by {@code |}: {@code # heading}, {@code term:: what it
 * is}, anything else is a paragraph.
 *
 * @param text what is shown
 * @param bold the stretches that are bold
 */
public record HelpPage(String text, List<Bold> bold) {

    /** A bold stretch. */
    public record Bold(int start, int length) { }

    /** The page of a topic, in the language of the window. */
    public static HelpPage of(String topic) {
        return switch (topic) {
            case HelpTopics.GUIDE -> Guide.page();
            case HelpTopics.CAUTIONS -> lines(HelpTopics.title(topic), Texts.of("welcome.cautions.text"));
            default -> lines(HelpTopics.title(topic), Texts.of("page." + topic));
        };
    }

    private static HelpPage lines(String title, String lines) {
        StringBuilder text = new StringBuilder();
        List<Bold> bold = new ArrayList<>();
        heading(text, bold, title);
        for (String line : lines.split("\\|")) {
            String words = line.strip();
            int split = words.indexOf("::");
            if (words.startsWith("#")) {
                heading(text, bold, words.substring(1).strip());
            } else if (split > 0) {
                bold.add(new Bold(text.length(), split));
                text.append(words, 0, split).append('\t').append(words.substring(split + 2).strip()).append('\n');
            } else {
                text.append(words).append('\n');
            }
        }
        return new HelpPage(text.toString(), List.copyOf(bold));
    }

    static void heading(StringBuilder text, List<Bold> bold, String words) {
        text.append(text.length() == 0 ? "" : "\n");
        bold.add(new Bold(text.length(), words.length()));
        text.append(words).append('\n');
    }
}
