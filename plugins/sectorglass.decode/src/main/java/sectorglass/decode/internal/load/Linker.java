package sectorglass.decode.internal.load;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import org.yaml.snakeyaml.nodes.ScalarNode;

import sectorglass.decode.internal.run.Endian;
import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.TypeSpec;
import sectorglass.decode.internal.run.ValueType;
import sectorglass.decode.internal.run.ValueType.Kind;
import sectorglass.decode.internal.text.EnumTable;

/** Looks up the names of all types read, gives fields their types, compiles expressions and builds the steps. */
final class Linker {
    /** Value instances that need each other, for the sake of the stack. */
    private static final int DEEPEST = 60;

    private final Universe universe;
    private final TypeNames names;
    private final ExprCompiler compiler;
    private final StepBuilder steps;
    private int depth;

    Linker(Universe universe) {
        this.universe = universe;
        this.names = new TypeNames(universe);
        this.compiler = new ExprCompiler(universe, names, this::type);
        this.steps = new StepBuilder(universe, compiler);
    }

    ExprCompiler compiler() {
        return compiler;
    }

    void link() {
        List<TypeDraft> all = new ArrayList<>(universe.drafts.values());
        for (TypeDraft type : all) {
            for (FieldDraft field : type.all()) {
                field.data = names.of(field);
                users(field, field.data);
            }
        }
        for (TypeDraft type : all) {
            type.all().forEach(this::type);
        }
        for (TypeDraft type : all) {
            endian(type);
            for (FieldDraft field : type.seq) {
                steps.seq(field);
            }
            for (FieldDraft field : type.instances) {
                steps.instance(field);
            }
            aligned(type);
            toText(type);
        }
        forces(all);
    }

    private void users(FieldDraft field, DataType data) {
        if (data instanceof DataType.Struct struct) {
            boolean external = struct.type().outer() == null && struct.type() != field.owner.spec.top();
            String parent = field.map.text("parent");
            if (external || "false".equals(parent)) {
                return;
            }
            if (parent != null && !parent.equals("_parent")) {
                struct.type().usersUnknown(true);
            } else if (parent != null) {
                struct.type().usersUnknown(true);
            } else {
                struct.type().users().add(field.owner.spec);
            }
        } else if (data instanceof DataType.Switch cases) {
            cases.cases().forEach(one -> users(field, one.type()));
            if (cases.otherwise() != null) {
                users(field, cases.otherwise());
            }
        }
    }

    /** Gives a field its type; that of a value instance follows from its expression. */
    private void type(FieldDraft field) {
        if (field.typed || field.typing || depth > DEEPEST) {
            return; // what needs it here sees a value that is known at run time only
        }
        depth++;
        infer(field);
        depth--;
    }

    private void infer(FieldDraft field) {
        field.typing = true;
        ValueType type;
        if (field.map.get("value") instanceof ScalarNode node && field.spec.place() == FieldSpec.Place.INSTANCE) {
            Site site = new Site(field.owner.spec, field.map.file(), node, null);
            field.value = compiler.compile(site, null);
            type = field.value == null ? ValueType.ANY : field.value.type();
        } else {
            type = field.data == null ? ValueType.BYTES : TypeNames.value(field.data);
            if (field.data == null && field.map.has("type")) {
                type = ValueType.ANY;
            }
            if (sized(field) && field.data instanceof DataType.Switch cases && cases.otherwise() == null) {
                type = type.or(ValueType.BYTES);
            }
        }
        boolean array = field.map.has("repeat");
        String name = field.map.text("enum");
        if (name != null) {
            EnumTable table = universe.enumeration(field.owner.spec, List.of(name.split("::")));
            if (table == null) {
                field.map.problem(field.map.get("enum"), Words.unknown("the enumeration '" + name + "' is not defined", name, field.owner.spec
                        .enums().keySet()));
            } else if (!type.is(Kind.INT) && !type.is(Kind.ANY) && !(type.is(Kind.BOOL) && field.data instanceof DataType.Bits)) {
                field.map.problem(field.map.get("enum"), "only whole numbers can be members of an enumeration, but this is " + type.words());
            } else {
                type = ValueType.of(table);
            }
        }
        field.spec.type(type, array);
        field.typed = true;
        field.typing = false;
    }

    static boolean sized(FieldDraft field) {
        return field.map.has("size") || field.map.flag("size-eos", false) || field.map.has("terminator");
    }

    private void endian(TypeDraft type) {
        YamlMap map = type.endianSwitch;
        if (map == null) {
            return;
        }
        map.allow(Set.of("switch-on", "cases"), "a switched byte order");
        YamlMap cases = map.map("cases");
        if (!(map.get("switch-on") instanceof ScalarNode on) || cases == null) {
            map.problem(map.node(), "a switched byte order needs 'switch-on' and 'cases'");
            return;
        }
        Expr value = compiler.compile(new Site(type.spec, map.file(), on, null), null);
        List<Expr> keys = new ArrayList<>();
        List<Boolean> little = new ArrayList<>();
        Boolean otherwise = null;
        for (String key : cases.keys()) {
            String order = cases.text(key);
            if (!"le".equals(order) && !"be".equals(order)) {
                map.problem(cases.get(key), "a byte order must be le or be");
            }
            if (key.equals("_")) {
                otherwise = "le".equals(order);
            } else {
                keys.add(compiler.compile(new Site(type.spec, map.file(), cases.keyNode(key), null), null));
                little.add("le".equals(order));
            }
        }
        if (value == null || keys.contains(null)) {
            return;
        }
        boolean[] orders = new boolean[keys.size()];
        for (int i = 0; i < orders.length; i++) {
            orders[i] = little.get(i);
        }
        type.spec.order(TypeSpec.Order.SWITCH, new Endian(value, keys.toArray(Expr[]::new), orders, otherwise));
    }

    private void toText(TypeDraft type) {
        if (type.map.get("to-string") instanceof ScalarNode node) {
            type.spec.toText(compiler.compile(new Site(type.spec, type.map.file(), node, null), Kind.STR));
        }
    }

    /** A bit field goes on where one of the same order ended, also in a structure before it; everything else begins at a whole byte. */
    private static void aligned(TypeDraft type) {
        boolean[] aligned = new boolean[type.seq.size()];
        DataType.Bits before = null;
        for (int i = 0; i < aligned.length; i++) {
            DataType.Bits bits = type.seq.get(i).data instanceof DataType.Bits found ? found : null;
            aligned[i] = bits == null || before != null && bits.little() != before.little();
            before = bits;
        }
        type.spec.aligned(aligned);
    }

    private void forces(List<TypeDraft> all) {
        boolean changed = true;
        while (changed) {
            changed = false;
            for (TypeDraft type : all) {
                if (!type.spec.forces() && (!type.instances.isEmpty() || holdsForced(type))) {
                    type.spec.forces(true);
                    changed = true;
                }
            }
        }
    }

    private static boolean holdsForced(TypeDraft type) {
        Set<TypeSpec> used = new HashSet<>();
        type.seq.forEach(field -> collect(field.data, used));
        return used.stream().anyMatch(TypeSpec::forces);
    }

    private static void collect(DataType data, Set<TypeSpec> used) {
        if (data instanceof DataType.Struct struct) {
            used.add(struct.type());
        } else if (data instanceof DataType.Switch cases) {
            cases.cases().forEach(one -> collect(one.type(), used));
            collect(cases.otherwise(), used);
        }
    }
}
