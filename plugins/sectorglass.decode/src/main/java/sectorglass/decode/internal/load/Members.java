package sectorglass.decode.internal.load;

import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;

import sectorglass.decode.internal.expr.Ast;
import sectorglass.decode.internal.run.Constant;
import sectorglass.decode.internal.run.ElementAt;
import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.MemberField;
import sectorglass.decode.internal.run.Methods;
import sectorglass.decode.internal.run.OwnField;
import sectorglass.decode.internal.run.StreamMember;
import sectorglass.decode.internal.run.Surroundings;
import sectorglass.decode.internal.run.TypeSpec;
import sectorglass.decode.internal.run.ValueType;
import sectorglass.decode.internal.run.ValueType.Kind;

/** Names, members and methods in expressions. */
final class Members {
    private static final Map<Kind, Map<String, ValueType>> METHODS = Map.of(
            Kind.STR, Map.of("length", ValueType.INT, "reverse", ValueType.STR, "to_i", ValueType.INT, "substring", ValueType.STR),
            Kind.BYTES, Map.of("size", ValueType.INT, "length", ValueType.INT, "first", ValueType.INT, "last", ValueType.INT, "min",
                    ValueType.INT, "max", ValueType.INT, "to_s", ValueType.STR),
            Kind.INT, Map.of("to_s", ValueType.STR),
            Kind.FLOAT, Map.of("to_i", ValueType.INT, "to_s", ValueType.STR),
            Kind.BOOL, Map.of("to_i", ValueType.INT),
            Kind.ENUM, Map.of("to_i", ValueType.INT),
            Kind.IO, Map.of("pos", ValueType.INT, "size", ValueType.INT, "eof", ValueType.BOOL),
            Kind.ANY, Map.of("to_i", ValueType.INT, "to_s", ValueType.STR, "length", ValueType.INT, "reverse", ValueType.STR, "substring",
                    ValueType.STR));

    private final Universe universe;
    private final Consumer<FieldDraft> typing;
    private final Sizes sizes;

    Members(Universe universe, Consumer<FieldDraft> typing, Sizes sizes) {
        this.universe = universe;
        this.typing = typing;
        this.sizes = sizes;
    }

    Expr name(Site site, Ast.Name ast) throws CompileException {
        TypeSpec scope = site.scope();
        switch (ast.name()) {
            case "_root":
                return new Surroundings(Surroundings.Name.ROOT, ValueType.struct(scope.top()));
            case "_parent":
                return new Surroundings(Surroundings.Name.PARENT, parent(scope));
            case "_io":
                return new Surroundings(Surroundings.Name.IO, ValueType.IO);
            case "_index":
                return new Surroundings(Surroundings.Name.INDEX, ValueType.INT);
            case "_":
                if (site.item() == null) {
                    throw new CompileException(ast.at(), "'_' stands for a value in 'repeat-until' and 'valid' only");
                }
                return new Surroundings(Surroundings.Name.ITEM, site.item());
            case "_sizeof":
                return size(ast.at(), sizes.bits(scope), scope.path());
            default:
                FieldSpec field = scope.members().get(ast.name());
                if (field == null) {
                    throw new CompileException(ast.at(), Words.unknown("the type " + scope.path() + " has no field '" + ast.name() + "'",
                            ast.name(), scope.members().keySet()));
                }
                typing.accept(universe.draft(field));
                return new OwnField(field);
        }
    }

    private static ValueType parent(TypeSpec scope) {
        return scope.usersUnknown() || scope.users().size() != 1 ? ValueType.STRUCT : ValueType.struct(scope.users().iterator().next());
    }

    private static Expr size(int at, long bits, String what) throws CompileException {
        if (bits < 0) {
            throw new CompileException(at, "the size of " + what + " depends on the bytes");
        }
        return new Constant(ValueType.INT, (bits + 7) / 8);
    }

    Expr member(Site site, Ast.Member ast, Expr of) throws CompileException {
        String name = ast.name();
        if (name.equals("_sizeof")) {
            return sizeOf(ast, of);
        }
        ValueType type = of.type();
        if (type.is(Kind.STRUCT)) {
            return ofStruct(site, ast, of);
        }
        if (type.is(Kind.IO)) {
            return switch (name) {
                case "pos" -> new StreamMember(of, StreamMember.Name.POS, ValueType.INT);
                case "size" -> new StreamMember(of, StreamMember.Name.SIZE, ValueType.INT);
                case "eof" -> new StreamMember(of, StreamMember.Name.EOF, ValueType.BOOL);
                default -> throw noMember(ast.at(), of, name);
            };
        }
        return method(ast.at(), of, name, new Expr[0]);
    }

    private Expr sizeOf(Ast.Member ast, Expr of) throws CompileException {
        FieldSpec field = of instanceof OwnField own ? own.field() : of instanceof MemberField other ? other.field() : null;
        if (field != null && universe.draft(field) != null) {
            return size(ast.at(), sizes.bits(universe.draft(field)), field.id());
        }
        if (of.type().struct() != null) {
            return size(ast.at(), sizes.bits(of.type().struct()), of.type().struct().path());
        }
        throw new CompileException(ast.at(), "the size of this value is not known");
    }

    private Expr ofStruct(Site site, Ast.Member ast, Expr of) throws CompileException {
        String name = ast.name();
        TypeSpec type = of.type().struct();
        switch (name) {
            case "_io":
                return new StreamMember(of, StreamMember.Name.IO, ValueType.IO);
            case "_parent":
                return new StreamMember(of, StreamMember.Name.PARENT, type == null ? ValueType.STRUCT : parent(type));
            case "_root":
                return new StreamMember(of, StreamMember.Name.ROOT, type == null ? ValueType.STRUCT : ValueType.struct(type.top()));
            default:
                break;
        }
        if (type == null) {
            return anyStruct(site, ast, of);
        }
        FieldSpec field = type.members().get(name);
        if (field == null) {
            throw new CompileException(ast.at(), Words.unknown("the type " + type.path() + " has no field '" + name + "'", name, type.members()
                    .keySet()));
        }
        typing.accept(universe.draft(field));
        return new MemberField(of, field);
    }

    /** A member of a structure whose type is known when it runs; for {@code _parent} the possible types are known. */
    private Expr anyStruct(Site site, Ast.Member ast, Expr of) throws CompileException {
        ValueType result = ValueType.ANY;
        boolean direct = ast.of() instanceof Ast.Name parent && parent.name().equals("_parent");
        Set<TypeSpec> users = site.scope().users();
        if (direct && !site.scope().usersUnknown() && users.isEmpty() && site.scope().outer() == null) {
            throw new CompileException(ast.at(), "nothing in this spec uses the type " + site.scope().path()
                    + ", so it has no _parent whose fields are known; .as<type> says what it is");
        }
        if (direct && !site.scope().usersUnknown() && !users.isEmpty()) {
            ValueType all = null;
            for (TypeSpec user : users) {
                FieldSpec field = user.members().get(ast.name());
                if (field != null) {
                    typing.accept(universe.draft(field));
                    all = all == null ? field.wholeType() : all.or(field.wholeType());
                }
            }
            if (all == null) {
                throw new CompileException(ast.at(), "no type that uses " + site.scope().path() + " has a field '" + ast.name() + "'");
            }
            result = all;
        }
        return new Methods(of, ast.name(), new Expr[0], result);
    }

    Expr call(Ast.Call ast, Expr of, Expr[] arguments) throws CompileException {
        return method(ast.at(), of, ast.name(), arguments);
    }

    private static CompileException noMember(int at, Expr of, String name) {
        return new CompileException(at, of.type().words() + " has no member '" + name + "'");
    }

    private static Expr method(int at, Expr of, String name, Expr[] arguments) throws CompileException {
        ValueType type = of.type();
        ValueType result;
        if (type.is(Kind.ARRAY)) {
            result = switch (name) {
                case "size" -> ValueType.INT;
                case "first", "last", "min", "max" -> type.element();
                case "to_s" -> ValueType.STR;
                default -> throw noMember(at, of, name);
            };
        } else {
            result = METHODS.getOrDefault(type.kind(), Map.of()).get(name);
            if (result == null && type.is(Kind.ANY)) {
                result = ValueType.ANY;
            }
        }
        if (result == null) {
            throw noMember(at, of, name);
        }
        arguments(at, type, name, arguments);
        return new Methods(of, name, arguments, result);
    }

    private static void arguments(int at, ValueType type, String name, Expr[] arguments) throws CompileException {
        int least = name.equals("substring") ? 2 : name.equals("to_s") && (type.is(Kind.BYTES) || type.is(Kind.ARRAY)) ? 1 : 0;
        int most = name.equals("to_i") && !type.is(Kind.INT) || name.equals("to_s") && type.is(Kind.ANY) ? 1 : least;
        if (arguments.length < least || arguments.length > most) {
            throw new CompileException(at, "'" + name + "' takes " + (least == most ? String.valueOf(least) : least + " or " + most)
                    + " values in brackets, not " + arguments.length);
        }
        for (Expr argument : arguments) {
            Kind kind = argument.type().kind();
            Kind wanted = name.equals("to_s") ? Kind.STR : Kind.INT;
            if (kind != wanted && kind != Kind.ANY) {
                throw new CompileException(at, "'" + name + "' takes " + Operators.wanted(wanted) + ", but this is " + argument.type().words());
            }
        }
    }

    Expr element(Ast.Index ast, Expr of, Expr index) throws CompileException {
        ValueType type = of.type();
        if (type.is(Kind.ARRAY)) {
            return new ElementAt(of, index, type.element());
        }
        if (type.is(Kind.BYTES)) {
            return new ElementAt(of, index, ValueType.INT);
        }
        if (type.is(Kind.ANY)) {
            return new ElementAt(of, index, ValueType.ANY);
        }
        throw new CompileException(ast.at(), type.words() + " has no elements");
    }
}
