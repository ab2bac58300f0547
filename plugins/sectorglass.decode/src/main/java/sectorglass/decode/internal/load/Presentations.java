package sectorglass.decode.internal.load;

import sectorglass.decode.internal.text.Presentation;

/** Reads the keys that say how values are shown. */
final class Presentations {

    private Presentations() {
    }

    static Presentation of(FieldDraft field) {
        return Presentation.PLAIN;
    }
}
