package sectorglass.decode.internal.load;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import sectorglass.decode.internal.text.KeyedPresentation;
import sectorglass.decode.internal.text.Presentation;
import sectorglass.decode.internal.text.Unit;
import sectorglass.decode.internal.text.Units;

/** Reads the keys that say how values are shown: {@code -unit}, {@code -flags}, {@code -values}, {@code -link}, {@code -format}. */
final class Presentations {
    private static final List<String> LINKS = List.of("lba", "sector", "cluster", "record", "byte");

    private Presentations() {
    }

    static Presentation of(FieldDraft field) {
        YamlMap map = field.map;
        Unit unit = unit(field);
        Map<Long, String> flags = map.has("-flags") ? flags(map.map("-flags")) : null;
        Map<Object, String> values = map.has("-values") ? values(map.map("-values")) : null;
        String link = map.text("-link");
        if (link != null && !LINKS.contains(link)) {
            map.problem(map.get("-link"), "'-link' must be one of " + String.join(", ", LINKS));
        }
        String format = map.text("-format");
        if (format != null && link == null) {
            map.problem(map.keyNode("-format"), "'-format' says what stands where '-link' points: give '-link'");
        }
        if (flags == null && unit != null && unit.word().equals("flags")) {
            map.problem(map.get("-unit"), "'-unit: flags' needs '-flags' with the labels by mask");
        }
        if (unit == null && flags == null && values == null && link == null) {
            return Presentation.PLAIN;
        }
        return new KeyedPresentation(unit, flags, values, link, format);
    }

    private static Unit unit(FieldDraft field) {
        YamlMap map = field.map;
        String word = map.text("-unit");
        if (word == null) {
            return null;
        }
        long bits = field.data == null ? -1 : TypeNames.bits(field.data);
        Unit unit = Units.of(word, (int) bits);
        if (unit == null) {
            map.problem(map.get("-unit"), Words.unknown("the unit '" + word + "' is not known: " + String.join(", ", Units.words()), word, Units
                    .words()));
        }
        return unit;
    }

    private static Map<Long, String> flags(YamlMap map) {
        Map<Long, String> flags = new LinkedHashMap<>();
        if (map != null) {
            for (String key : map.keys()) {
                Long mask = YamlMap.number(key);
                if (mask == null) {
                    map.problem(map.keyNode(key), "a mask must be a whole number");
                } else {
                    flags.put(mask, String.valueOf(map.text(key)));
                }
            }
        }
        return flags;
    }

    private static Map<Object, String> values(YamlMap map) {
        Map<Object, String> values = new LinkedHashMap<>();
        if (map != null) {
            for (String key : map.keys()) {
                Long number = YamlMap.number(key);
                values.put(number != null ? number : key.toLowerCase(Locale.ROOT), String.valueOf(map.text(key)));
            }
        }
        return values;
    }
}
