package sectorglass.decode.internal.load;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

import sectorglass.decode.FormatOutline;

/** Reads the outline of a spec that loads without mistakes. */
public final class OutlineReader {
    private static final Pattern NUMBER = Pattern.compile("[usf]([1248])(le|be)?");
    private static final Pattern BITS = Pattern.compile("b(\\d+)(le|be)?");
    private static final int MOST_PARTS = 40;
    private static final int DEEPEST = 8;

    private final YamlMap root;
    private final Map<String, YamlMap> types = new LinkedHashMap<>();
    private final Map<String, YamlMap> enums = new LinkedHashMap<>();
    private final Map<String, YamlMap> imported = new LinkedHashMap<>();
    private final Set<String> wanted = new LinkedHashSet<>();

    private OutlineReader(YamlMap root, Function<String, String> imports) {
        this.root = root;
        collect(root);
        for (Node item : root.map("meta").list("imports")) {
            String name = item instanceof ScalarNode scalar ? scalar.getValue() : "";
            String text = imports.apply(name);
            if (text != null) {
                imported.put(name, YamlReader.read(name, text, new Problems()));
            }
        }
    }

    /**
     * The outline of a spec's text.
     *
     * @param imports gives the text of an imported spec by its name, or null
     */
    public static FormatOutline read(String file, String text, Function<String, String> imports) {
        return new OutlineReader(YamlReader.read(file, text, new Problems()), imports).outline();
    }

    private void collect(YamlMap from) {
        YamlMap inner = from.map("types");
        for (String name : inner == null ? Set.<String>of() : inner.keys()) {
            YamlMap type = inner.map(name);
            if (type != null && types.putIfAbsent(name, type) == null) {
                collect(type);
            }
        }
        YamlMap named = from.map("enums");
        for (String name : named == null ? Set.<String>of() : named.keys()) {
            enums.putIfAbsent(name, named.map(name));
        }
    }

    private FormatOutline outline() {
        YamlMap meta = root.map("meta");
        List<FormatOutline.Part> parts = new ArrayList<>();
        parts.add(part("", root));
        List<String> done = new ArrayList<>();
        while (done.size() < wanted.size() && parts.size() < MOST_PARTS) {
            String next = new ArrayList<>(wanted).get(done.size());
            done.add(next);
            FormatOutline.Part part = part(next, types.get(next));
            if (!part.rows().isEmpty()) {
                parts.add(part);
            }
        }
        String title = meta.text("title");
        return new FormatOutline(meta.text("id"), title == null ? meta.text("id") : title, folded(root.text("doc")), root.texts("doc-ref"), List.copyOf(parts));
    }

    private static String folded(String text) {
        return text == null ? null : text.replaceAll("\\s+", " ").strip();
    }

    /** Where the next field begins, while fields are read in order. */
    private static final class Cursor {
        private boolean known = true;
        private long bits;

        String offset() {
            long bytes = bits / 8;
            String at = known ? Long.toString(bytes) : bytes == 0 && bits == 0 ? "n" : "n + " + bytes;
            return bits % 8 == 0 ? at : at + "." + bits % 8;
        }

        void skip(Long length) {
            if (length == null) {
                known = false;
                bits = 0;
            } else {
                bits += length;
            }
        }

        void align() {
            bits = (bits + 7) / 8 * 8;
        }
    }

    private FormatOutline.Part part(String name, YamlMap type) {
        List<FormatOutline.Row> rows = new ArrayList<>();
        Cursor cursor = new Cursor();
        for (Node item : type.list("seq")) {
            if (item instanceof MappingNode mapping) {
                YamlMap field = new YamlMap(type.file(), type.problems(), mapping);
                if (field.text("type") == null || !BITS.matcher(field.text("type")).matches()) {
                    cursor.align();
                }
                rows.add(row(field, field.text("id"), cursor.offset()));
                cursor.skip(total(field, 0));
            }
        }
        YamlMap instances = type.map("instances");
        for (String id : instances == null ? Set.<String>of() : instances.keys()) {
            YamlMap field = instances.map(id);
            if (field != null && field.has("pos") && !id.endsWith("_ahead")) {
                rows.add(row(field, id, field.text("pos")));
            }
        }
        return new FormatOutline.Part(name.replace('_', ' '), folded(type == root ? null : type.text("doc")), List.copyOf(rows));
    }

    private FormatOutline.Row row(YamlMap field, String id, String offset) {
        String label = field.text("-label");
        String type = plain(field.text("type"));
        String part = type != null && types.containsKey(type) ? type : null;
        if (part != null) {
            wanted.add(part);
        }
        for (String other : cases(field)) {
            if (types.containsKey(other)) {
                wanted.add(other);
            }
        }
        Long bits = single(field, 0);
        String size = field.text("size");
        boolean toEnd = field.flag("size-eos", false);
        String length = bits != null ? bits % 8 == 0 ? Long.toString(bits / 8) : bits + " bits" : toEnd ? "" : size != null ? size : "";
        return new FormatOutline.Row(offset, length, toEnd, label == null ? id : label, part == null ? null : part.replace('_', ' '), times(field), field.text("if"),
                folded(field.text("doc")), values(field));
    }

    private static String plain(String type) {
        return type == null ? null : type.replaceAll("\\(.*", "").strip();
    }

    private List<String> cases(YamlMap field) {
        List<String> all = new ArrayList<>();
        if (field.get("type") instanceof MappingNode mapping) {
            YamlMap cases = new YamlMap(field.file(), field.problems(), mapping).map("cases");
            for (String key : cases == null ? Set.<String>of() : cases.keys()) {
                all.add(plain(cases.text(key)));
            }
        }
        return all;
    }

    private static String times(YamlMap field) {
        String repeat = field.text("repeat");
        return repeat == null ? null : repeat.equals("expr") ? field.text("repeat-expr") : "*";
    }

    /** Bits of a field with its repeats, or null where the bytes decide. */
    private Long total(YamlMap field, int depth) {
        Long one = field.has("if") ? null : single(field, depth);
        String times = times(field);
        Long count = times == null ? Long.valueOf(1) : times.equals("*") ? null : constant(times);
        return one == null || count == null ? null : one * count;
    }

    private static Long constant(String text) {
        return text == null || !text.matches("(0x[0-9a-fA-F_]+|[0-9_]+)") ? null : YamlMap.number(text);
    }

    /** Bits of one field, or null where the bytes decide. */
    private Long single(YamlMap field, int depth) {
        if (field.has("size")) {
            Long size = constant(field.text("size"));
            return size == null ? null : size * 8;
        }
        if (field.get("contents") instanceof SequenceNode list) {
            return list.getValue().size() * 8L;
        }
        if (field.get("contents") instanceof ScalarNode text) {
            return text.getValue().length() * 8L;
        }
        if (!(field.get("type") instanceof ScalarNode)) {
            return null;
        }
        String type = plain(field.text("type"));
        Matcher number = NUMBER.matcher(type);
        if (number.matches()) {
            return Long.parseLong(number.group(1)) * 8;
        }
        Matcher bits = BITS.matcher(type);
        if (bits.matches()) {
            return Long.parseLong(bits.group(1));
        }
        YamlMap other = types.getOrDefault(type, imported.get(type));
        return other != null && depth < DEEPEST ? whole(other, depth + 1) : null;
    }

    private Long whole(YamlMap type, int depth) {
        long sum = 0;
        for (Node item : type.list("seq")) {
            Long bits = item instanceof MappingNode mapping ? total(new YamlMap(type.file(), type.problems(), mapping), depth) : null;
            if (bits == null) {
                return null;
            }
            sum += bits;
        }
        return (sum + 7) / 8 * 8;
    }

    private List<FormatOutline.Value> values(YamlMap field) {
        List<FormatOutline.Value> values = new ArrayList<>();
        String unit = field.text("-unit");
        for (String key : new String[] {"-flags", "-values"}) {
            add(field.map(key), unit, values);
        }
        String named = field.text("enum");
        YamlMap members = named == null ? null : enums.get(named.substring(named.lastIndexOf(':') + 1));
        if (members != null) {
            add(members, unit, values);
        }
        if (field.get("contents") instanceof ScalarNode text) {
            values.add(new FormatOutline.Value("\"" + text.getValue() + "\"", ""));
        } else if (field.get("contents") instanceof SequenceNode list) {
            StringBuilder bytes = new StringBuilder();
            for (Node item : list.getValue()) {
                Long value = item instanceof ScalarNode scalar ? YamlMap.number(scalar.getValue()) : null;
                bytes.append(bytes.isEmpty() ? "" : " ").append(value == null ? String.valueOf(((ScalarNode) item).getValue()) : hex(value, 2));
            }
            values.add(new FormatOutline.Value(bytes.toString(), ""));
        }
        return List.copyOf(values);
    }

    private static void add(YamlMap from, String unit, List<FormatOutline.Value> values) {
        for (String key : from == null ? Set.<String>of() : from.keys()) {
            String meaning = null;
            if (from.get(key) instanceof MappingNode mapping) {
                YamlMap member = new YamlMap(from.file(), from.problems(), mapping);
                meaning = member.text("-label");
                meaning = meaning == null ? member.text("id") : meaning;
            } else if (from.get(key) instanceof ScalarNode) {
                meaning = from.text(key);
            }
            Long number = YamlMap.number(key);
            boolean decimal = "dec".equals(unit) || !key.startsWith("0x") && number != null && number < 10;
            if (meaning != null) {
                values.add(new FormatOutline.Value(number == null ? key : decimal ? Long.toString(number) : hex(number, Math.max(2, key.length() - 2)), meaning));
            }
        }
    }

    private static String hex(long value, int digits) {
        return String.format(Locale.ROOT, "%0" + Math.min(16, digits) + "X", value);
    }
}
