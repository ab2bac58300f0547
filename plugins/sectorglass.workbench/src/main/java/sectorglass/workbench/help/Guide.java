package sectorglass.workbench.help;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import sectorglass.workbench.look.Texts;

/** The user guide of the documentation as plain text: headings and terms bold, tables as lines, pictures left out. */
final class Guide {
    private static final Pattern LINK = Pattern.compile("\\[([^\\]]*)\\]\\([^)]*\\)");
    private static final Pattern BOLD = Pattern.compile("\\*\\*([^*]+)\\*\\*");

    private Guide() {
    }

    static HelpPage page() {
        try (InputStream in = Guide.class.getResourceAsStream("/sectorglass/workbench/guide/user-guide.md")) {
            return in == null ? new HelpPage(Texts.of("page.guide.missing"), List.of()) : of(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            return new HelpPage(Texts.of("page.guide.missing"), List.of());
        }
    }

    static HelpPage of(String markdown) {
        StringBuilder text = new StringBuilder();
        List<HelpPage.Bold> bold = new ArrayList<>();
        boolean joined = false;
        for (String line : markdown.split("\n", -1)) {
            String words = line.strip();
            if (words.startsWith("![") || words.matches("\\|[-| :]+\\|")) {
                continue;
            }
            if (words.startsWith("#")) {
                HelpPage.heading(text, bold, plain(words.replaceFirst("#+\\s*", "")));
                joined = false;
            } else if (words.startsWith("|")) {
                String[] cells = words.substring(1, words.length() - (words.endsWith("|") ? 1 : 0)).split("\\|");
                String first = plain(cells[0].strip());
                bold.add(new HelpPage.Bold(text.length(), first.length()));
                text.append(first);
                for (int i = 1; i < cells.length; i++) {
                    text.append(i == 1 ? '\t' : ' ').append(plain(cells[i].strip()));
                }
                text.append('\n');
                joined = false;
            } else if (words.isEmpty()) {
                text.append(joined ? "\n" : "");
                joined = false;
            } else {
                boolean item = words.startsWith("- ") || words.matches("\\d+\\. .*");
                text.append(joined && item ? "\n" : joined ? " " : "");
                append(text, bold, item && words.startsWith("- ") ? "\u2013 " + words.substring(2) : words);
                joined = true;
            }
        }
        return new HelpPage(text.append('\n').toString(), List.copyOf(bold));
    }

    private static void append(StringBuilder text, List<HelpPage.Bold> bold, String words) {
        Matcher matcher = BOLD.matcher(words);
        int at = 0;
        while (matcher.find()) {
            text.append(plain(words.substring(at, matcher.start())));
            String strong = plain(matcher.group(1));
            bold.add(new HelpPage.Bold(text.length(), strong.length()));
            text.append(strong);
            at = matcher.end();
        }
        text.append(plain(words.substring(at)));
    }

    private static String plain(String words) {
        return LINK.matcher(words).replaceAll("$1").replace("`", "").replace("**", "").replaceAll("(?<![\\w*])\\*([^*]+)\\*(?![\\w*])", "$1");
    }
}
