package sectorglass.workbench.parts;

import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

import sectorglass.recovery.Needle;
import sectorglass.workbench.look.Texts;

/** What is looked for: how the typed words become bytes. */
enum FindForm {
    HEX, UTF_8, UTF_16LE, LATIN_1, U8, U16_LITTLE, U16_BIG, U32_LITTLE, U32_BIG, U64_LITTLE, U64_BIG;

    /** The form in words. */
    String words() {
        return Texts.of("find.form." + name().toLowerCase(Locale.ROOT));
    }

    /** @throws IllegalArgumentException with a sentence where the words are none of this form */
    Needle needle(String typed) {
        return switch (this) {
            case HEX -> Needle.ofHex(typed);
            case UTF_8 -> Needle.ofText(typed, StandardCharsets.UTF_8);
            case UTF_16LE -> Needle.ofText(typed, StandardCharsets.UTF_16LE);
            case LATIN_1 -> Needle.ofText(typed, StandardCharsets.ISO_8859_1);
            case U8 -> Needle.ofNumber(number(typed), 1, ByteOrder.LITTLE_ENDIAN);
            case U16_LITTLE -> Needle.ofNumber(number(typed), 2, ByteOrder.LITTLE_ENDIAN);
            case U16_BIG -> Needle.ofNumber(number(typed), 2, ByteOrder.BIG_ENDIAN);
            case U32_LITTLE -> Needle.ofNumber(number(typed), 4, ByteOrder.LITTLE_ENDIAN);
            case U32_BIG -> Needle.ofNumber(number(typed), 4, ByteOrder.BIG_ENDIAN);
            case U64_LITTLE -> Needle.ofNumber(number(typed), 8, ByteOrder.LITTLE_ENDIAN);
            case U64_BIG -> Needle.ofNumber(number(typed), 8, ByteOrder.BIG_ENDIAN);
        };
    }

    private static long number(String typed) {
        try {
            return Long.decode(typed.strip().replaceAll("[\\s\u2009_]", ""));
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(Texts.of("goto.number"), e);
        }
    }
}
