package sectorglass.decode.internal.text;

import java.util.Map;

import sectorglass.decode.FieldNode;
import sectorglass.image.SafeText;

/** A presentation by the keys of a field. */
public final class KeyedPresentation implements Presentation {
    private final Unit unit;
    private final Map<Long, String> flags;
    private final Map<Object, String> values;
    private final String linkKind;
    private final String linkFormat;

    /**
     * A presentation.
     *
     * @param unit the unit, or null
     * @param flags labels by mask, in the spec's order, or null
     * @param values meanings by number or by the text of the value in lower case, or null
     * @param linkKind what a number points to, or null
     * @param linkFormat id of the format there, or null
     */
    public KeyedPresentation(Unit unit, Map<Long, String> flags, Map<Object, String> values, String linkKind, String linkFormat) {
        this.unit = unit;
        this.flags = flags;
        this.values = values;
        this.linkKind = linkKind;
        this.linkFormat = linkFormat;
    }

    @Override
    public String value(Object raw, boolean unsigned, EnumTable table) {
        if (raw == null) {
            return "–";
        }
        if (unit != null) {
            String text = unit.value(raw, unsigned);
            if (text != null) {
                return text;
            }
        }
        if (raw instanceof Long number) {
            return Numbers.grouped(number, unsigned);
        }
        return raw instanceof byte[] bytes ? Numbers.hex(bytes) : raw instanceof String text ? SafeText.of(text) : String.valueOf(raw);
    }

    @Override
    public String meaning(Object raw, boolean unsigned, EnumTable table) {
        if (values != null && raw != null) {
            Object key = raw instanceof Long ? raw : value(raw, unsigned, table).toLowerCase(java.util.Locale.ROOT);
            String found = values.get(key);
            if (found != null) {
                return found;
            }
        }
        if (raw instanceof Long number) {
            if (table != null) {
                EnumTable.Member member = table.find(number);
                return member == null ? Texts.of("meaning.unassigned") : member.words();
            }
            if (flags != null) {
                return flags(number);
            }
        }
        return raw == null || unit == null ? null : unit.meaning(raw, unsigned);
    }

    private String flags(long number) {
        StringBuilder set = new StringBuilder();
        long left = number;
        for (Map.Entry<Long, String> flag : flags.entrySet()) {
            if ((number & flag.getKey()) == flag.getKey() && flag.getKey() != 0) {
                set.append(set.isEmpty() ? "" : ", ").append(flag.getValue());
                left &= ~flag.getKey();
            }
        }
        if (left != 0) {
            set.append(set.isEmpty() ? "" : ", ").append(Texts.of("meaning.flags-unassigned", "0x" + Long.toHexString(left).toUpperCase(
                    java.util.Locale.ROOT)));
        }
        return set.isEmpty() ? Texts.of("meaning.no-flags") : set.toString();
    }

    @Override
    public String other(Object value) {
        if (value instanceof FieldNode node) {
            return node.path().isEmpty() ? Texts.of("value.root") : node.path();
        }
        if (value instanceof Object[] items) {
            StringBuilder all = new StringBuilder("[");
            for (int i = 0; i < items.length && i < 64; i++) {
                all.append(i == 0 ? "" : ", ").append(items[i] instanceof FieldNode || items[i] instanceof Object[] ? other(items[i])
                        : value(items[i], false, null));
            }
            return all.append(items.length > 64 ? ", …]" : "]").toString();
        }
        return Texts.of("value.stream");
    }

    @Override
    public String unit() {
        return unit == null ? null : unit.word();
    }

    @Override
    public FieldNode.Link link(long value) {
        return linkKind == null ? null : new FieldNode.Link(linkKind, value, linkFormat);
    }
}
