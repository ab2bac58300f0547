package sectorglass.decode.internal.load;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.FieldSpec.Place;
import sectorglass.decode.internal.run.TypeSpec;
import sectorglass.decode.internal.text.EnumTable;

/** Reads the outline of types: names, members, enumerations, {@code meta}. Names inside are not yet looked up. */
final class TypeReader {
    private static final Set<String> TYPE_KEYS = Set.of("meta", "doc", "doc-ref", "params", "seq", "types", "instances", "enums",
            "to-string");
    private static final Set<String> META_KEYS = Set.of("id", "title", "application", "file-extension", "xref", "license", "tags",
            "ks-version", "ks-debug", "ks-opaque-types", "ks-zero-copy-substream", "imports", "encoding", "endian", "bit-endian");
    static final Set<String> FIELD_KEYS = Set.of("id", "doc", "doc-ref", "contents", "type", "repeat", "repeat-expr", "repeat-until",
            "if", "size", "size-eos", "process", "enum", "encoding", "pad-right", "terminator", "consume", "include", "eos-error", "valid",
            "parent");
    private static final Set<String> INSTANCE_KEYS = with(FIELD_KEYS, "pos", "io", "value");
    private static final Set<String> PARAM_KEYS = Set.of("id", "type", "enum", "doc", "doc-ref");
    private static final int DEEPEST = 40;
    private static final int LANGUAGE_MAJOR = 0;
    private static final int LANGUAGE_MINOR = 11;

    private final Universe universe;

    TypeReader(Universe universe) {
        this.universe = universe;
    }

    private static Set<String> with(Set<String> some, String... more) {
        Set<String> all = new java.util.HashSet<>(some);
        all.addAll(List.of(more));
        return all;
    }

    /** Reads a type and those in it; {@code outer} is null at the top. */
    TypeDraft read(String name, YamlMap map, TypeDraft outer, int depth) {
        TypeSpec type = new TypeSpec(name, map.file(), outer == null ? null : outer.spec);
        TypeDraft draft = new TypeDraft(type, map, outer);
        universe.drafts.put(type, draft);
        map.allow(TYPE_KEYS, "a type");
        YamlMap meta = map.map("meta");
        type.texts(meta == null ? null : meta.text("title"), map.text("doc"), map.texts("doc-ref"));
        meta(draft, meta);
        enums(draft);
        YamlMap types = map.map("types");
        if (types != null && depth < DEEPEST) {
            for (String id : types.keys()) {
                checkId(map, types.keyNode(id), id);
                YamlMap inner = types.map(id);
                if (inner == null) {
                    inner = new YamlMap(map.file(), universe.problems, new MappingNode(org.yaml.snakeyaml.nodes.Tag.MAP, List.of(),
                            org.yaml.snakeyaml.DumperOptions.FlowStyle.BLOCK));
                }
                TypeDraft child = read(id, inner, draft, depth + 1);
                draft.types.add(child);
                type.types().put(id, child.spec);
            }
        } else if (types != null) {
            map.problem(types.node(), "types are nested deeper than " + DEEPEST);
        }
        fields(draft);
        return draft;
    }

    private static void checkId(YamlMap map, Node node, String id) {
        if (!Words.isId(id)) {
            map.problem(node, "'" + id + "' is no id: small letters, digits and underscores, a letter first");
        }
    }

    private void meta(TypeDraft draft, YamlMap meta) {
        TypeSpec type = draft.spec;
        TypeSpec outer = draft.outer == null ? null : draft.outer.spec;
        boolean littleBits = outer != null && outer.littleBits();
        TypeSpec.Order order = outer == null ? TypeSpec.Order.NONE : outer.order() == TypeSpec.Order.SWITCH ? TypeSpec.Order.INHERIT
                : outer.order();
        type.order(order, null);
        if (meta != null) {
            meta.allow(META_KEYS, "meta");
            type.encoding(meta.text("encoding"));
            for (String key : List.of("ks-debug", "ks-opaque-types", "ks-zero-copy-substream")) {
                meta.flag(key, false);
            }
            version(meta);
            String bits = meta.text("bit-endian");
            if (bits != null) {
                littleBits = bits.equals("le");
                if (!littleBits && !bits.equals("be")) {
                    meta.problem(meta.get("bit-endian"), "'bit-endian' must be le or be");
                }
            }
            if (meta.get("endian") instanceof MappingNode) {
                draft.endianSwitch = meta.map("endian");
                type.order(TypeSpec.Order.SWITCH, null);
            } else if (meta.has("endian")) {
                String text = meta.text("endian");
                if (!"le".equals(text) && !"be".equals(text)) {
                    meta.problem(meta.get("endian"), "'endian' must be le, be or a switch-on");
                }
                type.order("le".equals(text) ? TypeSpec.Order.LITTLE : TypeSpec.Order.BIG, null);
            }
        }
        type.littleBits(littleBits);
    }

    private static void version(YamlMap meta) {
        String wanted = meta.text("ks-version");
        if (wanted != null && wanted.matches("\\d+(\\.\\d+)*")) {
            String[] parts = wanted.split("\\.");
            long major = Long.parseLong(parts[0].length() > 9 ? "999999999" : parts[0]);
            long minor = parts.length < 2 ? 0 : Long.parseLong(parts[1].length() > 9 ? "999999999" : parts[1]);
            if (major > LANGUAGE_MAJOR || major == LANGUAGE_MAJOR && minor > LANGUAGE_MINOR) {
                meta.problem(meta.get("ks-version"), "the spec needs version " + wanted + " of the language; versions up to " + LANGUAGE_MAJOR
                        + "." + LANGUAGE_MINOR + " are understood");
            }
        }
    }

    private void fields(TypeDraft draft) {
        TypeSpec type = draft.spec;
        YamlMap map = draft.map;
        int slot = 0;
        for (Node item : map.list("seq")) {
            FieldDraft field = field(draft, item, null, Place.SEQ, slot, FIELD_KEYS, "a field");
            if (field != null) {
                draft.seq.add(field);
                slot++;
            }
        }
        YamlMap instances = map.map("instances");
        if (instances != null) {
            for (String id : instances.keys()) {
                checkId(map, instances.keyNode(id), id);
                FieldDraft field = field(draft, instances.get(id), id, Place.INSTANCE, slot, INSTANCE_KEYS, "an instance");
                if (field != null) {
                    draft.instances.add(field);
                    slot++;
                }
            }
        }
        for (Node item : map.list("params")) {
            FieldDraft field = field(draft, item, null, Place.PARAM, draft.params.size(), PARAM_KEYS, "a parameter");
            if (field != null) {
                draft.params.add(field);
            }
        }
        type.fields(specs(draft.seq), specs(draft.instances), specs(draft.params));
    }

    private static FieldSpec[] specs(List<FieldDraft> drafts) {
        return drafts.stream().map(draft -> draft.spec).toArray(FieldSpec[]::new);
    }

    private FieldDraft field(TypeDraft draft, Node node, String givenId, Place place, int slot, Set<String> allowed, String what) {
        if (!(node instanceof MappingNode mapping)) {
            universe.problems.add(draft.map.file(), node, what + " must be a mapping");
            return null;
        }
        YamlMap map = new YamlMap(draft.map.file(), universe.problems, mapping);
        map.allow(allowed, what);
        String id = givenId;
        if (id == null) {
            id = map.text("id");
            if (id == null) {
                id = "unnamed" + slot;
            } else {
                checkId(map, map.get("id"), id);
            }
        }
        FieldSpec spec = new FieldSpec(draft.spec, id, place, slot);
        spec.texts(map.text("-label"), map.text("doc"), map.texts("doc-ref"));
        FieldDraft field = new FieldDraft(spec, draft, map);
        FieldSpec before = draft.spec.members().putIfAbsent(id, spec);
        if (before != null) {
            map.problem(map.has("id") ? map.get("id") : map.node(), "'" + id + "' is defined twice in " + draft.spec.path());
        }
        universe.fields.put(spec, field);
        return field;
    }

    private void enums(TypeDraft draft) {
        YamlMap enums = draft.map.map("enums");
        if (enums == null) {
            return;
        }
        for (String id : enums.keys()) {
            checkId(draft.map, enums.keyNode(id), id);
            YamlMap members = enums.map(id);
            List<EnumTable.Member> all = new ArrayList<>();
            if (members != null) {
                for (String key : members.keys()) {
                    EnumTable.Member member = member(members, key, all);
                    if (member != null) {
                        all.add(member);
                    }
                }
            }
            draft.spec.enums().put(id, new EnumTable(draft.spec.path() + "::" + id, all));
        }
    }

    private static EnumTable.Member member(YamlMap members, String key, List<EnumTable.Member> before) {
        if (key.startsWith("-") && YamlMap.number(key) == null) {
            return null;
        }
        Long value = YamlMap.number(key);
        if (value == null) {
            members.problem(members.keyNode(key), "'" + key + "' is no whole number of 64 bits");
            return null;
        }
        String id;
        String label = null;
        String doc = null;
        if (members.get(key) instanceof ScalarNode scalar) {
            id = scalar.getValue();
        } else {
            YamlMap map = members.map(key);
            if (map == null) {
                return null;
            }
            map.allow(Set.of("id", "doc", "doc-ref"), "a member of an enumeration");
            id = map.text("id");
            label = map.text("-label");
            doc = map.text("doc");
        }
        if (id == null || !Words.isId(id)) {
            members.problem(members.get(key), "a member of an enumeration needs an id: small letters, digits and underscores");
            return null;
        }
        for (EnumTable.Member other : before) {
            if (other.value() == value || other.id().equals(id)) {
                members.problem(members.keyNode(key), "the enumeration has " + (other.value() == value ? "the number " + key : "the id " + id)
                        + " twice");
                return null;
            }
        }
        return new EnumTable.Member(value, id, label, doc);
    }
}
