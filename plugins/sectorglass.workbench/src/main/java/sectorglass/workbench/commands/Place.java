package sectorglass.workbench.commands;

/** Reads numbers as people type them. */
final class Place {

    private Place() {
    }

    /** A decimal number, or hex with 0x before or h after it; blanks, thin spaces, dots and commas between digits do not matter. Null if none. */
    static Long parse(String typed) {
        String text = typed.strip().replaceAll("[\\s\u2009\u00A0.,'_]", "");
        try {
            if (text.startsWith("0x") || text.startsWith("0X")) {
                return Long.parseLong(text.substring(2), 16);
            }
            if (text.endsWith("h") || text.endsWith("H")) {
                return Long.parseLong(text.substring(0, text.length() - 1), 16);
            }
            return Long.parseLong(text);
        } catch (NumberFormatException e) {
            return null;
        }
    }
}
