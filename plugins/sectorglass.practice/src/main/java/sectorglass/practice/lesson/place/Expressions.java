package sectorglass.practice.lesson.place;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.Set;
import java.util.function.Supplier;

import sectorglass.decode.FieldNode;
import sectorglass.image.Window;
import sectorglass.practice.lesson.LessonException;

/**
 * Reads expressions.
 *
 * <pre>
 * place  = base ["/" path] ["+" number [".." number] | "for" number]
 * base   = "lba" number | "byte" number | volume | "end" "of" volume | ("sector" | "cluster" | "record") number "of" volume
 *        | ("record" | "content") "of" TEXT "of" volume | FORMAT ["#" number] ["of" volume]
 * volume = ("partition" | "volume") number
 * number = sums and products of NUMBER, "sectors", "sector_size", (number) and
 *          value(place) lba(place) byte(place) offset(place) length(place) first(volume) count(volume)
 *          u8(place) u16le(place) u16be(place) u32le(place) u32be(place) u64le(place)
 * text   = TEXT | text(place) | meaning(place) | bytes(place) | letters(place)
 * </pre>
 */
public final class Expressions {
    private static final int SHOWN = 64;
    private static final Set<String> OF_PLACES = Set.of("value", "lba", "byte", "offset", "length", "first", "count", "u8", "u16le", "u16be",
            "u32le", "u32be", "u64le");

    private final Tokens tokens;
    private int depth;

    private Expressions(String text) {
        tokens = new Tokens(text);
    }

    /** @throws IllegalArgumentException where it is none; the message says why */
    public static PlaceExpression place(String text) {
        Expressions parser = new Expressions(text);
        PlaceExpression place = parser.place();
        parser.end();
        return ground -> bounded(() -> place.in(ground), text);
    }

    /** @throws IllegalArgumentException where it is none; the message says why */
    public static NumberExpression number(String text) {
        Expressions parser = new Expressions(text);
        NumberExpression number = parser.sum();
        parser.end();
        return ground -> bounded(() -> number.in(ground), text);
    }

    /** @throws IllegalArgumentException where it is none; the message says why */
    public static TextExpression text(String text) {
        Expressions parser = new Expressions(text);
        TextExpression found = parser.text();
        parser.end();
        return ground -> bounded(() -> found.in(ground), text);
    }

    /** A number or a text, as text. @throws IllegalArgumentException where it is neither; the message says why */
    public static TextExpression value(String text) {
        if (text.strip().matches("(?s)(\".*|(text|meaning|bytes|letters)\\s*\\(.*)")) {
            return text(text);
        }
        NumberExpression number = number(text);
        return ground -> Long.toUnsignedString(number.in(ground));
    }

    /** Numbers that leave 64 bits are the lesson's mistake. */
    private static <T> T bounded(Supplier<T> value, String text) {
        try {
            return value.get();
        } catch (ArithmeticException e) {
            throw new LessonException("a number in \"" + text + "\" becomes too large", e);
        }
    }

    private void end() {
        if (!tokens.done()) {
            throw new IllegalArgumentException("\"" + tokens.rest() + "\" is not understood");
        }
    }

    private PlaceExpression place() {
        PlaceExpression place = base();
        if (tokens.takeIf("/")) {
            String path = tokens.take("the path of a field");
            PlaceExpression of = place;
            place = ground -> ground.field(of.in(ground), path);
        }
        PlaceExpression whole = place;
        if (tokens.takeIf("+")) {
            NumberExpression from = factor();
            if (!tokens.takeIf("..")) {
                return part(whole, from, ground -> 1);
            }
            NumberExpression to = factor();
            return part(whole, from, ground -> to.in(ground) - from.in(ground) + 1);
        }
        if (tokens.takeIf("for")) {
            return part(whole, ground -> 0, factor());
        }
        return whole;
    }

    private static PlaceExpression part(PlaceExpression whole, NumberExpression from, NumberExpression length) {
        return ground -> {
            Spot base = whole.in(ground);
            Spot part = ground.inside(base.range().start() + from.in(ground), length.in(ground));
            return new Spot(part.range(), base.structure(), null);
        };
    }

    private PlaceExpression base() {
        String word = tokens.take("a place");
        if (!Tokens.isWord(word)) {
            throw new IllegalArgumentException("\"" + word + "\" is no place");
        }
        switch (word) {
            case "lba" -> {
                NumberExpression lba = factor();
                return ground -> ground.sectors(lba.in(ground), 1);
            }
            case "byte" -> {
                NumberExpression at = factor();
                return ground -> ground.inside(at.in(ground), 1);
            }
            case "partition", "volume" -> {
                NumberExpression number = factor();
                return ground -> ground.sectors(ground.partition(number.in(ground))[0], 1);
            }
            case "end" -> {
                NumberExpression number = ofVolume();
                return ground -> {
                    long[] of = ground.partition(number.in(ground));
                    return ground.sectors(of[0] + of[1] - 1, 1);
                };
            }
            default -> {
                return word.equals("record") && tokens.peek().equals("of") || word.equals("content") ? ofFile(word)
                        : Set.of("sector", "cluster", "record").contains(word) ? ofNumber(word) : structure(word);
            }
        }
    }

    private PlaceExpression ofFile(String word) {
        tokens.expect("of");
        String path = quoted();
        NumberExpression volume = ofVolume();
        return ground -> word.equals("record") ? ground.record(volume.in(ground), path) : ground.content(volume.in(ground), path);
    }

    private PlaceExpression ofNumber(String word) {
        NumberExpression number = factor();
        NumberExpression volume = ofVolume();
        if (word.equals("sector")) {
            return ground -> ground.sectors(Math.addExact(ground.partition(volume.in(ground))[0], number.in(ground)), 1);
        }
        return ground -> ground.pointer(volume.in(ground), word, number.in(ground));
    }

    private PlaceExpression structure(String format) {
        int number = 1;
        if (tokens.takeIf("#")) {
            String digits = tokens.take("a number");
            number = Tokens.isNumber(digits) ? (int) Math.min(10_000, Tokens.number(digits)) : 0;
            if (number < 1) {
                throw new IllegalArgumentException("after \"#\" a number from 1 is missing");
            }
        }
        int nth = number;
        if (tokens.peek().equals("of")) {
            NumberExpression volume = ofVolume();
            return ground -> ground.structure(format, nth, volume.in(ground));
        }
        return ground -> ground.structure(format, nth, 0);
    }

    private NumberExpression ofVolume() {
        tokens.expect("of");
        if (!tokens.takeIf("partition")) {
            tokens.expect("volume");
        }
        return factor();
    }

    private String quoted() {
        String text = tokens.take("a text in quotes");
        if (!Tokens.isText(text)) {
            throw new IllegalArgumentException("\"" + text + "\" stands where a text in quotes is needed");
        }
        return text.substring(1, text.length() - 1);
    }

    private NumberExpression sum() {
        if (++depth > 50) {
            throw new IllegalArgumentException("too many parentheses");
        }
        NumberExpression sum = product();
        while (tokens.peek().equals("+") || tokens.peek().equals("-")) {
            boolean plus = tokens.take("").equals("+");
            NumberExpression left = sum;
            NumberExpression right = product();
            sum = ground -> plus ? Math.addExact(left.in(ground), right.in(ground)) : Math.subtractExact(left.in(ground), right.in(ground));
        }
        depth--;
        return sum;
    }

    private NumberExpression product() {
        NumberExpression product = factor();
        while (Set.of("*", "/", "%").contains(tokens.peek())) {
            String sign = tokens.take("");
            NumberExpression left = product;
            NumberExpression right = factor();
            product = ground -> {
                long by = right.in(ground);
                if (by == 0 && !sign.equals("*")) {
                    throw new LessonException("a number would be divided by 0");
                }
                return switch (sign) {
                    case "*" -> Math.multiplyExact(left.in(ground), by);
                    case "/" -> left.in(ground) / by;
                    default -> left.in(ground) % by;
                };
            };
        }
        return product;
    }

    private NumberExpression factor() {
        String token = tokens.take("a number");
        if (Tokens.isNumber(token)) {
            long number = Tokens.number(token);
            return ground -> number;
        }
        if (token.equals("(")) {
            NumberExpression inner = sum();
            tokens.expect(")");
            return inner;
        }
        if (token.equals("sectors")) {
            return ground -> ground.disk().image().sectors();
        }
        if (token.equals("sector_size")) {
            return Ground::sectorSize;
        }
        if (!OF_PLACES.contains(token)) {
            throw new IllegalArgumentException("\"" + token + "\" is no number");
        }
        tokens.expect("(");
        NumberExpression number = token.equals("first") || token.equals("count") ? ofPartition(token) : ofPlace(token, place());
        tokens.expect(")");
        return number;
    }

    private NumberExpression ofPartition(String word) {
        if (!tokens.takeIf("partition")) {
            tokens.expect("volume");
        }
        NumberExpression number = factor();
        return ground -> ground.partition(number.in(ground))[word.equals("first") ? 0 : 1];
    }

    private static NumberExpression ofPlace(String function, PlaceExpression place) {
        return switch (function) {
            case "value" -> ground -> value(place.in(ground));
            case "lba" -> ground -> place.in(ground).range().start() / ground.sectorSize();
            case "byte" -> ground -> place.in(ground).range().start();
            case "offset" -> ground -> place.in(ground).range().start() % ground.sectorSize();
            case "length" -> ground -> place.in(ground).range().length();
            default -> ground -> {
                int width = Integer.parseInt(function.replaceAll("[^0-9]", "")) / 8;
                long start = place.in(ground).range().start();
                Window window = ground.read(ground.inside(start, width).range(), width);
                return switch (function) {
                    case "u8" -> window.u8(0);
                    case "u16le" -> window.u16le(0);
                    case "u16be" -> window.u16be(0);
                    case "u32le" -> window.u32le(0);
                    case "u32be" -> window.u32be(0);
                    default -> window.u64le(0);
                };
            };
        };
    }

    private static FieldNode field(Spot spot) {
        if (spot.field() == null) {
            throw new LessonException("a field is needed, and only bytes are named");
        }
        return spot.field();
    }

    private static long value(Spot spot) {
        FieldNode node = field(spot);
        if (node.raw() instanceof Long number) {
            return number;
        }
        throw new LessonException("the field " + node.path() + " is no number" + (node.problem() == null ? "" : ": " + node.problem()));
    }

    private TextExpression text() {
        if (Tokens.isText(tokens.peek())) {
            String text = quoted();
            return ground -> text;
        }
        String function = tokens.take("a text");
        if (!Set.of("text", "meaning", "bytes", "letters").contains(function)) {
            throw new IllegalArgumentException("\"" + function + "\" is no text");
        }
        tokens.expect("(");
        PlaceExpression place = place();
        tokens.expect(")");
        return switch (function) {
            case "text" -> ground -> shown(field(place.in(ground)));
            case "meaning" -> ground -> String.valueOf(field(place.in(ground)).meaning());
            case "letters" -> ground -> new String(bytes(ground, place.in(ground)), StandardCharsets.ISO_8859_1);
            default -> ground -> HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes(ground, place.in(ground)));
        };
    }

    private static String shown(FieldNode node) {
        return node.raw() instanceof byte[] bytes ? new String(bytes, StandardCharsets.ISO_8859_1) : node.value();
    }

    private static byte[] bytes(Ground ground, Spot spot) {
        Window window = ground.read(spot.range(), SHOWN);
        return window.bytes(0, window.length());
    }
}
