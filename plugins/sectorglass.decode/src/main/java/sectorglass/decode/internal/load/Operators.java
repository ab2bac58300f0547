package sectorglass.decode.internal.load;

import sectorglass.decode.internal.expr.Ast;
import sectorglass.decode.internal.run.Arithmetic;
import sectorglass.decode.internal.run.Choice;
import sectorglass.decode.internal.run.Comparison;
import sectorglass.decode.internal.run.Constant;
import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.GeneralArithmetic;
import sectorglass.decode.internal.run.Logic;
import sectorglass.decode.internal.run.Unary;
import sectorglass.decode.internal.run.Undecided;
import sectorglass.decode.internal.run.ValueType;
import sectorglass.decode.internal.run.ValueType.Kind;

/** Chooses the closures of operators by the types of their sides. */
final class Operators {

    /** A kind of value in words. */
    static String wanted(Kind kind) {
        return switch (kind) {
            case INT -> "a whole number";
            case FLOAT -> "a number";
            case BOOL -> "true or false";
            case STR -> "text";
            case BYTES -> "bytes";
            case IO -> "a stream";
            default -> "another value";
        };
    }

    Expr unary(Ast.Unary ast, Expr of) throws CompileException {
        ValueType type = of.type();
        if (ast.operator().equals("not")) {
            check(type.is(Kind.BOOL) || type.is(Kind.ANY), ast.at(), "'not' needs true or false, but this is " + type.words());
            return new Unary('!', of, ValueType.BOOL);
        }
        char operator = ast.operator().charAt(0);
        boolean fits = type.is(Kind.ANY) || type.is(Kind.INT) || operator == '-' && type.is(Kind.FLOAT);
        check(fits, ast.at(), "'" + operator + "' needs a number, but this is " + type.words());
        ValueType result = type.is(Kind.INT) ? ValueType.INT : type;
        Unary unary = new Unary(operator, of, result);
        return of instanceof Constant ? new Constant(result, unary.eval(null)) : unary;
    }

    Expr binary(Ast.Binary ast, Expr left, Expr right) throws CompileException {
        switch (ast.operator()) {
            case "and", "or":
                truth(ast, left);
                truth(ast, right);
                return new Logic(ast.operator().equals("or"), left, right);
            case "==":
                return comparison(ast, Comparison.Operator.EQUAL, left, right);
            case "!=":
                return comparison(ast, Comparison.Operator.NOT_EQUAL, left, right);
            case "<":
                return comparison(ast, Comparison.Operator.LESS, left, right);
            case "<=":
                return comparison(ast, Comparison.Operator.LESS_OR_EQUAL, left, right);
            case ">":
                return comparison(ast, Comparison.Operator.GREATER, left, right);
            case ">=":
                return comparison(ast, Comparison.Operator.GREATER_OR_EQUAL, left, right);
            default:
                return arithmetic(ast, left, right);
        }
    }

    private static void truth(Ast.Binary ast, Expr side) throws CompileException {
        check(side.type().is(Kind.BOOL) || side.type().is(Kind.ANY), ast.at(), "'" + ast.operator()
                + "' needs true or false on both sides, but one is " + side.type().words());
    }

    private static Expr arithmetic(Ast.Binary ast, Expr left, Expr right) throws CompileException {
        char operator = ast.operator().charAt(0);
        ValueType a = left.type();
        ValueType b = right.type();
        if (a.is(Kind.INT) && b.is(Kind.INT)) {
            return fold(new Arithmetic(operator, left, right), left, right);
        }
        boolean onlyWhole = "&|^<>".indexOf(operator) >= 0;
        if (a.number() && b.number() && !onlyWhole) {
            return new GeneralArithmetic(operator, left, right, ValueType.FLOAT);
        }
        if (a.is(Kind.STR) && b.is(Kind.STR) && operator == '+') {
            return new GeneralArithmetic(operator, left, right, ValueType.STR);
        }
        if (a.is(Kind.ANY) || b.is(Kind.ANY)) {
            ValueType type = onlyWhole ? ValueType.INT : a.is(Kind.STR) || b.is(Kind.STR) ? ValueType.STR : ValueType.ANY;
            return new GeneralArithmetic(operator, left, right, type);
        }
        String advice = a.is(Kind.ENUM) || b.is(Kind.ENUM) ? "; .to_i gives the number of a member" : "";
        throw new CompileException(ast.at(), "'" + ast.operator() + "' cannot join " + a.words() + " and " + b.words() + advice);
    }

    private static Expr fold(Arithmetic made, Expr left, Expr right) {
        if (left instanceof Constant && right instanceof Constant) {
            try {
                return new Constant(ValueType.INT, made.asLong(null));
            } catch (Undecided e) {
                return made; // divides by zero: that is said where it is computed
            }
        }
        return made;
    }

    private static Expr comparison(Ast.Binary ast, Comparison.Operator operator, Expr left, Expr right) throws CompileException {
        ValueType a = left.type();
        ValueType b = right.type();
        boolean equality = operator == Comparison.Operator.EQUAL || operator == Comparison.Operator.NOT_EQUAL;
        boolean arrays = a.is(Kind.ARRAY) && b.is(Kind.BYTES) || a.is(Kind.BYTES) && b.is(Kind.ARRAY);
        boolean comparable = a.is(Kind.ANY) || b.is(Kind.ANY) || a.number() && b.number() || a.kind() == b.kind() && !a.is(Kind.ENUM)
                && !a.is(Kind.ARRAY) && !a.is(Kind.STRUCT) && !a.is(Kind.IO) || a.is(Kind.ENUM) && a.equals(b) || equality && arrays;
        if (!comparable) {
            String advice = a.is(Kind.ENUM) != b.is(Kind.ENUM) ? "; .to_i gives the number of a member" : "";
            throw new CompileException(ast.at(), a.words() + " cannot be compared with " + b.words() + advice);
        }
        return new Comparison(operator, left, right);
    }

    Expr choice(Ast.Choice ast, Expr condition, Expr yes, Expr no) throws CompileException {
        check(joins(yes.type(), no.type()), ast.at(), "both sides of '?:' must be of one kind, but they are " + yes.type().words() + " and "
                + no.type().words());
        return new Choice(condition, yes, no, yes.type().or(no.type()));
    }

    /** Whether one value may be of either type. */
    static boolean joins(ValueType a, ValueType b) {
        boolean octets = a.is(Kind.BYTES) && b.is(Kind.ARRAY) || a.is(Kind.ARRAY) && b.is(Kind.BYTES);
        return a.is(Kind.ANY) || b.is(Kind.ANY) || a.number() && b.number() || octets || a.kind() == b.kind() && (!a.is(Kind.ENUM)
                || a.equals(b));
    }

    private static void check(boolean holds, int at, String sentence) throws CompileException {
        if (!holds) {
            throw new CompileException(at, sentence);
        }
    }
}
