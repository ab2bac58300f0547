package sectorglass.decode.internal.text;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.IntFunction;

/** The units that {@code -unit} knows. */
public final class Units {
    private static final Map<String, IntFunction<Unit>> KNOWN = new LinkedHashMap<>();

    static {
        KNOWN.put("hex", HexUnit::new);
        KNOWN.put("flags", FlagsUnit::new);
        KNOWN.put("dec", bits -> new PlainUnit("dec"));
        KNOWN.put("sectors", bits -> new PlainUnit("sectors"));
        KNOWN.put("lba", bits -> new PlainUnit("lba"));
        KNOWN.put("signed", SignedUnit::new);
        KNOWN.put("percent", bits -> new PercentUnit());
        KNOWN.put("bytes", bits -> new SizeUnit("bytes", 1));
        KNOWN.put("sectors512", bits -> new SizeUnit("sectors512", 512));
        KNOWN.put("guid", bits -> new UuidUnit("guid", true));
        KNOWN.put("guid-be", bits -> new UuidUnit("guid-be", false));
        KNOWN.put("uuid", bits -> new UuidUnit("uuid", false));
        KNOWN.put("chs", bits -> new ChsUnit());
        KNOWN.put("ascii", bits -> new AsciiUnit());
        KNOWN.put("text", bits -> new TextUnit());
        KNOWN.put("ascii-words", bits -> new AsciiWordsUnit());
        for (DateUnit.Kind kind : DateUnit.Kind.values()) {
            KNOWN.put(kind.word(), bits -> new DateUnit(kind));
        }
    }

    private Units() {
    }

    /** The words that {@code -unit} knows. */
    public static Set<String> words() {
        return KNOWN.keySet();
    }

    /**
     * The unit of a word, or null.
     *
     * @param bits width of the field's numbers, or -1 where it has no numbers
     */
    public static Unit of(String word, int bits) {
        IntFunction<Unit> maker = KNOWN.get(word);
        return maker == null ? null : maker.apply(bits);
    }

    /** A string up to its first zero character; what follows in its field shows in the bytes only. */
    private record TextUnit() implements Unit {
        @Override
        public String word() {
            return "text";
        }

        @Override
        public String value(Object raw, boolean unsigned) {
            return raw instanceof String text ? sectorglass.image.SafeText.of(text.indexOf(0) < 0 ? text : text.substring(0, text.indexOf(0)))
                    : null;
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return null;
        }
    }

    /** Characters in little-endian words of 16 bits, the first one in the high byte, as ATA strings are (T13/2132-D, 3.3.11). */
    private record AsciiWordsUnit() implements Unit {
        @Override
        public String word() {
            return "ascii-words";
        }

        @Override
        public String value(Object raw, boolean unsigned) {
            if (!(raw instanceof byte[] bytes)) {
                return null;
            }
            byte[] swapped = bytes.clone();
            for (int i = 0; i + 1 < swapped.length; i += 2) {
                swapped[i] = bytes[i + 1];
                swapped[i + 1] = bytes[i];
            }
            return new AsciiUnit().value(swapped, unsigned);
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return null;
        }
    }

    /** Text only in groups; no meaning. */
    private record PlainUnit(String word) implements Unit {
        @Override
        public String value(Object raw, boolean unsigned) {
            return null;
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return null;
        }
    }

    /** Hexadecimal in full width. */
    private record HexUnit(int bits) implements Unit {
        @Override
        public String word() {
            return "hex";
        }

        @Override
        public String value(Object raw, boolean unsigned) {
            return raw instanceof Long number ? Numbers.hex(number, bits) : null;
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return null;
        }
    }

    /** Hexadecimal; the meaning is made of labels. */
    private record FlagsUnit(int bits) implements Unit {
        @Override
        public String word() {
            return "flags";
        }

        @Override
        public String value(Object raw, boolean unsigned) {
            return raw instanceof Long number ? Numbers.hex(number, bits) : null;
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return null;
        }
    }

    /** An unsigned number that is meant signed. */
    private record SignedUnit(int bits) implements Unit {
        @Override
        public String word() {
            return "signed";
        }

        @Override
        public String value(Object raw, boolean unsigned) {
            if (!(raw instanceof Long number)) {
                return null;
            }
            long signed = bits > 0 && bits < 64 ? number << 64 - bits >> 64 - bits : number;
            return Numbers.grouped(signed, false);
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return null;
        }
    }

    /** Per cent. */
    private record PercentUnit() implements Unit {
        @Override
        public String word() {
            return "percent";
        }

        @Override
        public String value(Object raw, boolean unsigned) {
            return raw instanceof Long number ? Numbers.grouped(number, unsigned) + Numbers.THIN_SPACE + "%" : null;
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return null;
        }
    }

    /** A number of bytes or of 512-byte sectors. */
    private record SizeUnit(String word, int factor) implements Unit {
        @Override
        public String value(Object raw, boolean unsigned) {
            return null;
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return raw instanceof Long number ? Sizes.words(number, factor) : null;
        }
    }

    /** Characters. */
    private record AsciiUnit() implements Unit {
        @Override
        public String word() {
            return "ascii";
        }

        @Override
        public String value(Object raw, boolean unsigned) {
            if (!(raw instanceof byte[] bytes)) {
                return null;
            }
            StringBuilder text = new StringBuilder();
            int end = bytes.length;
            while (end > 0 && bytes[end - 1] == 0) {
                end--;
            }
            for (int i = 0; i < end && i < 256; i++) {
                text.append(bytes[i] >= 0x20 && bytes[i] < 0x7F ? (char) bytes[i] : '·');
            }
            return text.toString();
        }

        @Override
        public String meaning(Object raw, boolean unsigned) {
            return null;
        }
    }
}
