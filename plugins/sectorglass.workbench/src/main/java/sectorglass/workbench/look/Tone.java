package sectorglass.workbench.look;

/**
 * A use of colour, with its value in the light, the dark and the high contrast theme as 0xRRGGBB. Signal colours are those of the Okabe–Ito set,
 * published for colour-blind readers; they never carry text. Text colours reach a contrast of 4.5 on every background they stand on,
 * marks 3.0 by themselves or by their outline (WCAG 2.2, 1.4.3 and 1.4.11); a test computes it.
 */
public enum Tone {
    /** Background of the bytes. */
    PAGE(0xFFFFFF, 0x1B1F24, 0x000000),
    /** Background of labels beside the bytes. */
    MARGIN(0xF4F6F8, 0x22272E, 0x000000),
    /** Bytes under the field at the caret. */
    FIELD(0xDCEBF6, 0x25384D, 0x0B3A5E),
    /** Selected bytes. */
    SELECTED(0xC3DDF2, 0x24466B, 0x164F86),
    /** Bytes that a person marked. Yellow, light. */
    MARKED(0xFFF2B3, 0x453F16),
    /** Cell of the caret: background of its text. */
    CARET(0x0072B2, 0x8CC8EE, 0xFFFFFF),

    /** Bytes and values. */
    INK(0x1A1E23, 0xE8EBEE, 0xFFFFFF),
    /** Zero bytes, labels, what matters less. */
    QUIET(0x545D66, 0xABB5BF, 0xE4E8EC),
    /** Names in the gloss. */
    NAME(0x1F5B85, 0x9CCBEA, 0xBEE3FF),
    /** Text on the caret. */
    ON_CARET(0xFFFFFF, 0x10151A, 0x000000),
    /** A pointer that can be followed. */
    LINK(0x005C91, 0x8CC8EE, 0xBEE3FF),
    /** What a rule asks for instead of what is stored. */
    WRONG(0x9B3D00, 0xFFB186, 0xFFCBA4),

    /** Brackets, every other one. */
    BRACKET(0x2B6C99, 0x7FB4D8, 0xBEE3FF),
    /** Brackets between those. */
    BRACKET_NEXT(0x5F8DAE, 0x5A8CB0, 0x8FB8D6),
    /** Edge of what a person marked. Yellow, where it carries. */
    MARK(0x7D6B00, 0xF0E442),
    /** Outline of every signal mark. */
    OUTLINE(0x3A424A, 0xC9D1D9, 0xFFFFFF),
    /** Rules between sectors. */
    RULE(0xCBD3DA, 0x3A434D, 0x8A939C),

    /** Finding: the structure cannot serve; read failed. Vermillion. */
    UNUSABLE(0xD55E00, 0xD55E00),
    /** Finding: data may be wrong or missed. Orange. */
    AT_RISK(0xE69F00, 0xE69F00),
    /** Finding: nothing is lost by it. Blue and sky. */
    COSMETIC(0x0072B2, 0x56B4E9, 0x56B4E9),
    /** Skipped on purpose. Reddish purple. */
    SKIPPED(0xCC79A7, 0xCC79A7),
    /** Not read yet; not checked. */
    UNREAD(0x6B747D, 0x98A2AC, 0xC4CCD4),
    /** A partition on the strip. Sky, light. */
    PARTITION(0xBBDDF3, 0x27506E, 0x123F60),
    /** The next partition on the strip. */
    PARTITION_NEXT(0xDCECF7, 0x33414E, 0x26313A);

    private final int light;
    private final int dark;
    private final int contrast;

    /** In high contrast as in the dark theme. */
    Tone(int light, int dark) {
        this(light, dark, dark);
    }

    Tone(int light, int dark, int contrast) {
        this.light = light;
        this.dark = dark;
        this.contrast = contrast;
    }

    /** The colour as 0xRRGGBB. */
    public int rgb(Theme theme) {
        return switch (theme) {
            case LIGHT -> light;
            case DARK -> dark;
            case CONTRAST -> contrast;
        };
    }

    /** The colour in the light or dark theme as 0xRRGGBB. */
    public int rgb(boolean darkTheme) {
        return darkTheme ? dark : light;
    }

    /**
     * Contrast of two colours by WCAG 2.2, "contrast ratio".
     *
     * @return 1 (equal) to 21 (black on white)
     */
    public static double contrast(int one, int other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(int rgb) {
        return 0.2126 * linear(rgb >> 16 & 0xFF) + 0.7152 * linear(rgb >> 8 & 0xFF) + 0.0722 * linear(rgb & 0xFF);
    }

    private static double linear(int channel) {
        double c = channel / 255.0;
        return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
    }
}
