package sectorglass.workbench.findings;

import java.util.Locale;

import sectorglass.workbench.look.Texts;

/** Which findings are wanted, by whether somebody accepted them. */
enum Acceptance {
    /** All. */
    ANY,
    /** Those that nobody accepted. */
    OPEN,
    /** Those that somebody accepted. */
    ACCEPTED;

    String word() {
        return Texts.of("findings.accepted." + name().toLowerCase(Locale.ROOT));
    }
}
