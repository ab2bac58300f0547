package sectorglass.workbench.findings;

import java.util.Locale;

import sectorglass.workbench.look.Texts;

/** What findings are put together by. */
enum Grouping {
    /** One list. */
    NONE,
    /** Those of one structure under its name. */
    STRUCTURE,
    /** Under each finding those that follow from it. */
    CAUSE,
    /** Those of one check. */
    CHECK;

    String word() {
        return Texts.of("findings.group." + name().toLowerCase(Locale.ROOT));
    }
}
