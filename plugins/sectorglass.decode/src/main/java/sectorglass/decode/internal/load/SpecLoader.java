package sectorglass.decode.internal.load;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

import sectorglass.decode.SpecException;
import sectorglass.decode.SpecProblem;
import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.TypeSpec;
import sectorglass.decode.internal.run.ValueType;

/** Loads a spec with what it imports. */
public final class SpecLoader {
    private static final int MOST_FILES = 100;

    private final SpecSource source;
    private final Universe universe = new Universe();
    private final Deque<String> waiting = new ArrayDeque<>();
    private TypeDraft root;

    private SpecLoader(SpecSource source) {
        this.source = source;
    }

    /** Loads the spec at a path of a source. */
    public static Spec load(SpecSource source, String path) throws SpecException {
        SpecLoader loader = new SpecLoader(source);
        loader.run(path);
        List<SpecProblem> problems = loader.universe.problems.list();
        if (!problems.isEmpty()) {
            throw new SpecException(problems);
        }
        TypeSpec type = loader.root.spec;
        FieldSpec rootField = new FieldSpec(type, type.name(), FieldSpec.Place.ROOT, 0);
        rootField.texts(type.title(), type.doc(), type.docRef());
        rootField.type(ValueType.struct(type), false);
        return new Spec(type, rootField, loader.universe);
    }

    private void run(String path) {
        waiting.add(path);
        root = null;
        while (!waiting.isEmpty()) {
            String next = waiting.poll();
            if (universe.files.containsKey(next)) {
                continue;
            }
            TypeDraft draft = readFile(next);
            universe.files.put(next, draft);
            if (root == null) {
                root = draft;
                if (draft == null) {
                    return;
                }
            }
        }
        new Linker(universe).link();
    }

    private TypeDraft readFile(String path) {
        String text;
        try {
            text = source.read(path);
        } catch (IOException e) {
            universe.problems.add(path, null, "the file cannot be read: " + e.getMessage());
            return null;
        }
        if (text == null) {
            universe.problems.add(path, null, "there is no such file");
            return null;
        }
        YamlMap map = YamlReader.read(path, text, universe.problems);
        if (map == null) {
            return null;
        }
        YamlMap meta = map.map("meta");
        String id = meta == null ? null : meta.text("id");
        if (id == null || !Words.isId(id)) {
            map.problem(meta == null ? map.node() : meta.node(), "a spec needs meta/id: small letters, digits and underscores");
            id = "unnamed";
        }
        TypeDraft draft = new TypeReader(universe).read(id, map, null, 0);
        TypeSpec other = universe.tops.putIfAbsent(id, draft.spec);
        if (other != null) {
            map.problem(meta == null ? map.node() : meta.get("id"), "the id " + id + " is also that of " + other.file());
        }
        if (meta != null) {
            for (Node item : imports(meta)) {
                follow(path, item);
            }
            if (meta.flag("ks-opaque-types", false)) {
                opaque(path, draft);
            }
        }
        return draft;
    }

    private static List<Node> imports(YamlMap meta) {
        Node value = meta.get("imports");
        return value instanceof ScalarNode && !Words.empty(value) ? List.of(value) : meta.list("imports");
    }

    private void follow(String from, Node item) {
        if (!(item instanceof ScalarNode name)) {
            universe.problems.add(from, item, "an import must be the name of a spec");
            return;
        }
        String path = resolve(from, name.getValue().strip());
        if (path == null) {
            universe.problems.add(from, item, "the import '" + name.getValue() + "' leaves the folder of specs");
        } else if (universe.files.size() + waiting.size() >= MOST_FILES) {
            universe.problems.add(from, item, "more than " + MOST_FILES + " specs are imported");
        } else if (!exists(path)) {
            universe.problems.add(from, item, "the import '" + name.getValue() + "' is not there: no file " + path);
        } else {
            waiting.add(path);
        }
    }

    private boolean exists(String path) {
        try {
            return universe.files.containsKey(path) || waiting.contains(path) || source.read(path) != null;
        } catch (IOException e) {
            return false;
        }
    }

    /** Types that are defined outside are looked for as specs beside this one. */
    private void opaque(String path, TypeDraft draft) {
        for (FieldDraft field : allFields(draft)) {
            String type = field.map.get("type") instanceof ScalarNode ? field.map.text("type") : null;
            int bracket = type == null ? -1 : type.indexOf('(');
            type = bracket < 0 ? type : type.substring(0, bracket).strip();
            if (type != null && Words.isId(type) && universe.type(draft.spec, List.of(type)) == null) {
                String beside = resolve(path, type);
                if (beside != null && exists(beside)) {
                    waiting.add(beside);
                }
            }
        }
    }

    private static List<FieldDraft> allFields(TypeDraft draft) {
        List<FieldDraft> all = new ArrayList<>(draft.all());
        for (TypeDraft inner : draft.types) {
            all.addAll(allFields(inner));
        }
        return all;
    }

    /** The path an import means, or null where it leaves the root. */
    static String resolve(String from, String name) {
        Deque<String> parts = new ArrayDeque<>();
        int slash = from.lastIndexOf('/');
        String all = name.startsWith("/") ? name.substring(1) : (slash < 0 ? "" : from.substring(0, slash + 1)) + name;
        for (String part : all.split("/")) {
            if (part.equals("..")) {
                if (parts.isEmpty()) {
                    return null;
                }
                parts.removeLast();
            } else if (!part.isEmpty() && !part.equals(".")) {
                if (part.indexOf('\\') >= 0 || part.indexOf('\0') >= 0 || part.indexOf(':') >= 0) {
                    return null;
                }
                parts.addLast(part);
            }
        }
        return parts.isEmpty() ? null : String.join("/", parts) + ".ksy";
    }
}
