package sectorglass.disk.way;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.function.Consumer;

import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;
import sectorglass.image.SectorRanges;
import sectorglass.image.Texts;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * Puts the steps of a way together. Titles, sentences and names of fields are keys of the texts given: {@code KEY.title}, {@code KEY.text},
 * {@code field.NAME}, {@code sum.NAME}, {@code stop.NAME}. Not for several threads.
 */
public final class WayBuilder {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
    private static final int SHOWN = 16;
    private static final int MOST_STEPS = 400;

    private final Texts texts;
    private final List<WayStep> steps = new ArrayList<>();
    private String title;
    private String text;
    private String format;
    private ByteRange where;
    private List<Reading> readings = new ArrayList<>();
    private List<Calculation> calculations = new ArrayList<>();
    private long next = -1;

    private WayBuilder(Texts texts) {
        this.texts = texts;
    }

    /** The way cannot go on; the step that says so was added. */
    public static final class End extends RuntimeException {
        private static final long serialVersionUID = 1L;

        private End() {
            super(null, null, false, false);
        }
    }

    /**
     * Runs something that adds steps, until it is done, stops, or meets bytes that were not read.
     *
     * @param texts of the bundle that goes the way
     */
    public static List<WayStep> run(Texts texts, Consumer<WayBuilder> walk) {
        WayBuilder builder = new WayBuilder(texts);
        try {
            walk.accept(builder);
            builder.close(null, SectorRanges.EMPTY);
        } catch (UnreadException e) {
            builder.unread(e.missing());
        } catch (End e) {
            // its step was added
        }
        return List.copyOf(builder.steps);
    }

    private void unread(SectorRanges missing) {
        Texts own = new Texts(WayBuilder.class, texts.locale());
        close(own.of("unread", missing.isEmpty() ? "–" : Long.toString(missing.run(0).first()), Long.toString(missing.count())), missing);
    }

    private void close(String stop, SectorRanges missing) {
        if (title != null) {
            steps.add(new WayStep(title, text, format, where, List.copyOf(readings), List.copyOf(calculations), stop == null ? next : -1, stop, missing));
        }
        title = null;
        readings = new ArrayList<>();
        calculations = new ArrayList<>();
        next = -1;
    }

    /**
     * Begins a step; the one before it is finished.
     *
     * @param key of its title and text
     * @param structure image bytes of what is looked at
     * @param formatId id of the format that explains it, or null
     * @param values for both sentences
     */
    public WayBuilder step(String key, ByteRange structure, String formatId, Object... values) {
        close(null, SectorRanges.EMPTY);
        Object[] shown = plain(values);
        title = texts.of(key + ".title", shown);
        text = texts.of(key + ".text", shown);
        where = structure;
        format = formatId;
        if (steps.size() >= MOST_STEPS) {
            throw stop("long");
        }
        return this;
    }

    /**
     * Reads an unsigned little-endian number of 1 to 8 bytes.
     *
     * @param name key of the field's name
     * @throws UnreadException where it was not read
     */
    public long number(String name, Window window, int at, int width) {
        byte[] bytes = window.bytes(at, width);
        long value = 0;
        for (int i = width - 1; i >= 0; i--) {
            value = value << 8 | bytes[i] & 0xFF;
        }
        read(name, window.range(at, width), bytes, Long.toUnsignedString(value));
        return value;
    }

    /** Numbers without separators: they are addresses. */
    private static Object[] plain(Object[] values) {
        return java.util.Arrays.stream(values).map(String::valueOf).toArray();
    }

    /** Notes a field that was read by other means. */
    public WayBuilder read(String name, ByteRange place, byte[] bytes, Object value) {
        String hex = HEX.formatHex(bytes, 0, Math.min(SHOWN, bytes.length)) + (bytes.length > SHOWN ? " …" : "");
        readings.add(new Reading(texts.of("field." + name), place, hex, SafeText.of(String.valueOf(value))));
        return this;
    }

    /** Notes arithmetic; gives its result. */
    public long sum(String name, String numbers, long result) {
        calculations.add(new Calculation(texts.of("sum." + name), numbers, result));
        return result;
    }

    /** Says where the next structure lies, or the file's first byte. */
    public WayBuilder next(long imageByte) {
        next = imageByte;
        return this;
    }

    /** Ends the way in this step: {@code throw builder.stop(…)}. */
    public End stop(String name, Object... values) {
        close(texts.of("stop." + name, plain(values)), SectorRanges.EMPTY);
        return new End();
    }
}
