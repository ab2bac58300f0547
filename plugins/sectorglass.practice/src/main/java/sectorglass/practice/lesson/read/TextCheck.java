package sectorglass.practice.lesson.read;

import sectorglass.practice.lesson.place.Filling;

/** Looks whether the marks and expressions of a text are well formed. */
final class TextCheck {

    private TextCheck() {
    }

    static void of(KeyLine line, Block block) {
        if (line.value().isEmpty()) {
            block.problem(line.line(), "Nothing stands after \"" + line.key() + ":\".");
        }
        String outside = line.value().replaceAll("\\{[^}]*\\}", "");
        for (char mark : new char[] {'*', '`'}) {
            if (outside.chars().filter(c -> c == mark).count() % 2 != 0) {
                block.problem(line.line(), "A mark " + mark + " has no partner.");
            }
        }
        block.check(line, line.value(), text -> Filling.of(text));
    }
}
