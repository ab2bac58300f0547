package sectorglass.workbench.look;

/** The looks of the window. */
public enum Theme {
    /** Dark on light. */
    LIGHT("org.eclipse.e4.ui.css.theme.e4_default"),
    /** Light on dark. */
    DARK("org.eclipse.e4.ui.css.theme.e4_dark"),
    /** White on black, every text at least 7:1. The platform asks for the word dark in the id. */
    CONTRAST("sectorglass.workbench.contrast-dark");

    private final String id;

    Theme(String id) {
        this.id = id;
    }

    /** Id of the platform's theme. */
    public String id() {
        return id;
    }

    /** The theme with this id; unknown ones are dark where their id says so, else light. */
    static Theme of(String id) {
        return id.contains("contrast") ? CONTRAST : id.contains("dark") ? DARK : LIGHT;
    }

    /** The word for people. */
    public String word() {
        return Texts.of("theme." + name().toLowerCase(java.util.Locale.ROOT));
    }
}
