package sectorglass.report;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;

/** Writes one JSON value after the other to a stream, UTF-8, a line break after each. The stream stays open. */
public final class JsonOut implements AutoCloseable {
    private final JsonGenerator json;

    /** @param out receives the text */
    public JsonOut(OutputStream out) {
        try {
            json = new JsonFactory().createGenerator(out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        json.disable(StreamWriteFeature.AUTO_CLOSE_TARGET.mappedFeature());
        json.setRootValueSeparator(null);
    }

    /** Something that writes itself. */
    @FunctionalInterface
    public interface Part {
        /** Writes. */
        void write() throws IOException;
    }

    private JsonOut run(Part part) {
        try {
            part.write();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return this;
    }

    /** An object as a value. */
    public JsonOut object(Runnable content) {
        run(json::writeStartObject);
        content.run();
        return run(json::writeEndObject);
    }

    /** An object as a field. */
    public JsonOut object(String name, Runnable content) {
        return name(name).object(content);
    }

    /** An array as a field. */
    public JsonOut array(String name, Iterable<?> items, java.util.function.Consumer<Object> each) {
        name(name);
        run(json::writeStartArray);
        items.forEach(each);
        return run(json::writeEndArray);
    }

    /** An array as a value: numbers or texts. */
    public JsonOut list(Object... values) {
        run(json::writeStartArray);
        for (Object value : values) {
            value(value);
        }
        return run(json::writeEndArray);
    }

    private JsonOut name(String name) {
        return run(() -> json.writeFieldName(name));
    }

    /** A field: text, number, boolean or null; anything else by its text. */
    public JsonOut field(String name, Object value) {
        return name(name).value(value);
    }

    /** A value: text, number, boolean or null; anything else by its text. */
    public JsonOut value(Object value) {
        return run(() -> {
            if (value == null) {
                json.writeNull();
            } else if (value instanceof Integer || value instanceof Long || value instanceof Short) {
                json.writeNumber(((Number) value).longValue());
            } else if (value instanceof Double number) {
                json.writeNumber(number);
            } else if (value instanceof java.math.BigInteger number) {
                json.writeNumber(number);
            } else if (value instanceof Boolean flag) {
                json.writeBoolean(flag);
            } else {
                json.writeString(wellFormed(value.toString()));
            }
        });
    }

    /** Unpaired surrogates cannot be written as UTF-8: they become U+FFFD. */
    private static String wellFormed(String text) {
        StringBuilder copy = null;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            boolean pair = Character.isHighSurrogate(c) && i + 1 < text.length() && Character.isLowSurrogate(text.charAt(i + 1));
            if (Character.isSurrogate(c) && !pair) {
                copy = copy == null ? new StringBuilder(text) : copy;
                copy.setCharAt(i, '\uFFFD');
            } else if (pair) {
                i++;
            }
        }
        return copy == null ? text : copy.toString();
    }

    /** Ends a line: call after each root value. */
    public JsonOut line() {
        return run(() -> {
            json.writeRaw('\n');
            json.flush();
        });
    }

    @Override
    public void close() {
        run(json::close);
    }
}
