package sectorglass.decode.internal.load;

import java.util.List;

import org.yaml.snakeyaml.nodes.ScalarNode;

import sectorglass.decode.internal.expr.Ast;
import sectorglass.decode.internal.expr.ExprParser;
import sectorglass.decode.internal.expr.SyntaxException;
import sectorglass.decode.internal.run.ArrayLiteral;
import sectorglass.decode.internal.run.Constant;
import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.FormatText;
import sectorglass.decode.internal.run.Retyped;
import sectorglass.decode.internal.run.ValueType;
import sectorglass.decode.internal.run.ValueType.Kind;
import sectorglass.decode.internal.text.EnumTable;

/** Turns expressions into closures and says what is wrong with them. */
final class ExprCompiler {
    private final Universe universe;
    private final TypeNames names;
    private final Operators operators = new Operators();
    private final Members members;
    private final Sizes sizes;

    /** @param typing makes sure that a field has its type before it is used */
    ExprCompiler(Universe universe, TypeNames names, java.util.function.Consumer<FieldDraft> typing) {
        this.universe = universe;
        this.names = names;
        this.sizes = new Sizes(universe);
        this.members = new Members(universe, typing, sizes);
    }

    /** Compiles the expression in a scalar; null with a problem. {@code wanted}: null for any type. */
    Expr compile(Site site, Kind wanted) {
        return compile(site, ((ScalarNode) site.node()).getValue(), wanted);
    }

    /** Compiles an expression; null with a problem. */
    Expr compile(Site site, String text, Kind wanted) {
        try {
            Expr expr = compile(site, ExprParser.parse(text));
            require(expr, wanted, 0);
            return expr;
        } catch (SyntaxException e) {
            problem(site, e.at(), e.getMessage());
        } catch (CompileException e) {
            problem(site, e.at(), e.getMessage());
        }
        return null;
    }

    /** Compiles a parsed expression that stands inside something else; null with a problem. */
    Expr compileAst(Site site, Ast ast) {
        try {
            return compile(site, ast);
        } catch (CompileException e) {
            problem(site, e.at(), e.getMessage());
            return null;
        }
    }

    private void problem(Site site, int at, String sentence) {
        int before = site.before();
        universe.problems.add(site.file(), site.node().getStartMark(), before < 0 ? 0 : before + at, sentence);
    }

    private static void require(Expr expr, Kind wanted, int at) throws CompileException {
        Kind kind = expr.type().kind();
        boolean fits = wanted == null || kind == wanted || kind == Kind.ANY || wanted == Kind.FLOAT && kind == Kind.INT;
        if (!fits) {
            throw new CompileException(at, Operators.wanted(wanted) + " is needed here, but this is " + expr.type().words());
        }
    }

    private Expr compile(Site site, Ast ast) throws CompileException {
        if (ast instanceof Ast.Int number) {
            return new Constant(number.big() ? ValueType.U64 : ValueType.INT, number.value());
        }
        if (ast instanceof Ast.Real real) {
            return new Constant(ValueType.FLOAT, real.value());
        }
        if (ast instanceof Ast.Bool truth) {
            return new Constant(ValueType.BOOL, truth.value());
        }
        if (ast instanceof Ast.Text text) {
            return new Constant(ValueType.STR, text.value());
        }
        if (ast instanceof Ast.Format format) {
            return new FormatText(compile(site, format.parts()));
        }
        if (ast instanceof Ast.Name name) {
            return members.name(site, name);
        }
        if (ast instanceof Ast.EnumMember member) {
            return enumMember(site, member);
        }
        if (ast instanceof Ast.Array array) {
            return array(site, array);
        }
        if (ast instanceof Ast.Member member) {
            return members.member(site, member, compile(site, member.of()));
        }
        if (ast instanceof Ast.Call call) {
            return members.call(call, compile(site, call.of()), compile(site, call.arguments()));
        }
        if (ast instanceof Ast.Cast cast) {
            return cast(site, cast);
        }
        if (ast instanceof Ast.SizeOf sizeOf) {
            return sizes.ofType(site, sizeOf, names);
        }
        if (ast instanceof Ast.Index index) {
            Expr position = compile(site, index.index());
            require(position, Kind.INT, index.at());
            return members.element(index, compile(site, index.of()), position);
        }
        if (ast instanceof Ast.Unary unary) {
            return operators.unary(unary, compile(site, unary.of()));
        }
        if (ast instanceof Ast.Binary binary) {
            return operators.binary(binary, compile(site, binary.left()), compile(site, binary.right()));
        }
        Ast.Choice choice = (Ast.Choice) ast;
        Expr condition = compile(site, choice.condition());
        require(condition, Kind.BOOL, choice.condition().at());
        return operators.choice(choice, condition, compile(site, choice.yes()), compile(site, choice.no()));
    }

    private Expr[] compile(Site site, List<Ast> all) throws CompileException {
        Expr[] compiled = new Expr[all.size()];
        for (int i = 0; i < compiled.length; i++) {
            compiled[i] = compile(site, all.get(i));
        }
        return compiled;
    }

    private Expr enumMember(Site site, Ast.EnumMember ast) throws CompileException {
        List<String> path = ast.path();
        EnumTable table = universe.enumeration(site.scope(), path.subList(0, path.size() - 1));
        String name = String.join("::", path.subList(0, path.size() - 1));
        if (table == null) {
            throw new CompileException(ast.at(), "the enumeration '" + name + "' is not defined");
        }
        String id = path.get(path.size() - 1);
        EnumTable.Member member = table.named(id);
        if (member == null) {
            throw new CompileException(ast.at(), Words.unknown("the enumeration " + name + " has no member '" + id + "'", id,
                    table.members().stream().map(EnumTable.Member::id).toList()));
        }
        return new Constant(ValueType.of(table), member.value());
    }

    private Expr array(Site site, Ast.Array ast) throws CompileException {
        boolean octets = !ast.items().isEmpty();
        for (Ast item : ast.items()) {
            octets &= item instanceof Ast.Int number && number.value() >= 0 && number.value() <= 255;
        }
        Expr[] items = compile(site, ast.items());
        if (octets) {
            byte[] bytes = new byte[items.length];
            for (int i = 0; i < bytes.length; i++) {
                bytes[i] = (byte) items[i].asLong(null);
            }
            return new Constant(ValueType.BYTES, bytes);
        }
        ValueType element = items.length == 0 ? ValueType.ANY : items[0].type();
        for (int i = 0; i < items.length; i++) {
            if (!Operators.joins(items[0].type(), items[i].type())) {
                throw new CompileException(ast.items().get(i).at(), "the elements of an array must be of one kind, but they are "
                        + items[0].type().words() + " and " + items[i].type().words());
            }
            element = element.or(items[i].type());
        }
        return new ArrayLiteral(items, ValueType.array(element));
    }

    private Expr cast(Site site, Ast.Cast ast) throws CompileException {
        Expr of = compile(site, ast.of());
        ValueType type = names.value(site.scope(), ast.type());
        if (type == null) {
            throw new CompileException(ast.at(), "the type '" + ast.type() + "' is not defined in this spec nor in its imports");
        }
        ValueType from = of.type();
        boolean possible = from.is(Kind.ANY) || type.is(Kind.ANY) || from.kind() == type.kind() || from.number() && type.number()
                || from.is(Kind.BOOL) && type.is(Kind.INT) || from.is(Kind.ARRAY) && type.is(Kind.BYTES) || from.is(Kind.BYTES) && type.is(
                        Kind.ARRAY) || from.is(Kind.ENUM) && type.is(Kind.INT);
        if (!possible) {
            throw new CompileException(ast.at(), from.words() + " cannot be taken as " + type.words());
        }
        return new Retyped(of, type);
    }
}
