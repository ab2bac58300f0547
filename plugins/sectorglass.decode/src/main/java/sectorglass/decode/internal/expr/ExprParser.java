package sectorglass.decode.internal.expr;

import java.util.ArrayList;
import java.util.List;

import sectorglass.decode.internal.expr.Token.Kind;

/**
 * Parses expressions by precedence climbing. From weak to strong: {@code ?:}, {@code or}, {@code and}, {@code not}, comparisons,
 * {@code |}, {@code ^}, {@code &}, shifts, {@code + -}, {@code * / %}, unary, postfix (Kaitai Struct User Guide, section 6.3).
 */
public final class ExprParser {
    private static final int MAX_DEPTH = 100;

    private final List<Token> words;
    private int next;
    private int depth;

    private ExprParser(List<Token> words) {
        this.words = words;
    }

    /** Parses a whole expression. */
    public static Ast parse(String text) throws SyntaxException {
        return parse(text, 0);
    }

    private static Ast parse(String text, int depth) throws SyntaxException {
        ExprParser parser = new ExprParser(Lexer.words(text));
        parser.depth = depth;
        Ast expression = parser.choice();
        parser.end();
        return expression;
    }

    /**
     * A type with arguments, {@code name::name(a, b)[]}.
     *
     * @param name the name with {@code ::}
     * @param arguments empty where there are none
     * @param array whether {@code []} follows
     */
    public record TypeUse(String name, List<Ast> arguments, boolean array) { }

    /** Parses the text of a {@code type} or of a {@code process} key. */
    public static TypeUse parseType(String text) throws SyntaxException {
        ExprParser parser = new ExprParser(Lexer.words(text));
        StringBuilder name = new StringBuilder(parser.take(Kind.NAME, "a type name").text());
        while (parser.peek().is("::") || parser.peek().is(".")) {
            name.append(parser.words.get(parser.next++).text()).append(parser.take(Kind.NAME, "a type name").text());
        }
        List<Ast> arguments = List.of();
        if (parser.accept("(")) {
            arguments = parser.list(")");
        }
        boolean array = parser.accept("[");
        if (array) {
            parser.expect("]");
        }
        parser.end();
        return new TypeUse(name.toString(), arguments, array);
    }

    private void end() throws SyntaxException {
        if (peek().kind() != Kind.END) {
            throw new SyntaxException(peek().at(), "'" + peek().text() + "' is not expected here");
        }
    }

    private Token peek() {
        return words.get(next);
    }

    private boolean accept(String operator) {
        if (peek().is(operator)) {
            next++;
            return true;
        }
        return false;
    }

    private void expect(String operator) throws SyntaxException {
        if (!accept(operator)) {
            throw new SyntaxException(peek().at(), "'" + operator + "' is expected instead of '" + peek().text() + "'");
        }
    }

    private Token take(Kind kind, String what) throws SyntaxException {
        if (peek().kind() != kind) {
            throw new SyntaxException(peek().at(), what + " is expected instead of '" + peek().text() + "'");
        }
        return words.get(next++);
    }

    private void enter() throws SyntaxException {
        if (++depth > MAX_DEPTH) {
            throw new SyntaxException(peek().at(), "the expression is nested deeper than " + MAX_DEPTH);
        }
    }

    private Ast choice() throws SyntaxException {
        enter();
        Ast condition = binary(0);
        if (peek().is("?")) {
            int at = words.get(next++).at();
            Ast yes = choice();
            expect(":");
            Ast no = choice();
            condition = new Ast.Choice(at, condition, yes, no);
        }
        depth--;
        return condition;
    }

    private static int level(Token word) {
        if (word.kind() == Kind.NAME) {
            return word.text().equals("or") ? 1 : word.text().equals("and") ? 2 : -1;
        }
        if (word.kind() != Kind.OPERATOR) {
            return -1;
        }
        return switch (word.text()) {
            case "==", "!=", "<", ">", "<=", ">=" -> 4;
            case "|" -> 5;
            case "^" -> 6;
            case "&" -> 7;
            case "<<", ">>" -> 8;
            case "+", "-" -> 9;
            case "*", "/", "%" -> 10;
            default -> -1;
        };
    }

    private Ast binary(int weakest) throws SyntaxException {
        enter();
        Ast left = unary();
        int chain = 0;
        for (int level = level(peek()); level > 0 && level >= weakest; level = level(peek())) {
            Token operator = words.get(next++);
            if (++chain > MAX_DEPTH) {
                throw new SyntaxException(operator.at(), "the expression has more than " + MAX_DEPTH + " operators in a row");
            }
            left = new Ast.Binary(operator.at(), operator.text(), left, binary(level + 1));
        }
        depth--;
        return left;
    }

    private Ast unary() throws SyntaxException {
        Token word = peek();
        if (word.word("not")) {
            enter();
            next++;
            Ast of = binary(3);
            depth--;
            return new Ast.Unary(word.at(), "not", of);
        }
        if (word.is("-") || word.is("~") || word.is("+")) {
            enter();
            next++;
            Ast of = unary();
            depth--;
            return word.is("+") ? of : new Ast.Unary(word.at(), word.text(), of);
        }
        return postfix();
    }

    private Ast postfix() throws SyntaxException {
        Ast of = primary();
        for (int chain = 0;; chain++) {
            Token word = peek();
            if (chain > MAX_DEPTH) {
                throw new SyntaxException(word.at(), "more than " + MAX_DEPTH + " members in a row");
            }
            if (accept("[")) {
                Ast index = choice();
                expect("]");
                of = new Ast.Index(word.at(), of, index);
            } else if (accept(".")) {
                of = member(of);
            } else {
                return of;
            }
        }
    }

    private Ast member(Ast of) throws SyntaxException {
        Token name = take(Kind.NAME, "a name");
        if (name.text().equals("as") && accept("<")) {
            return new Ast.Cast(name.at(), of, typeName());
        }
        if (accept("(")) {
            return new Ast.Call(name.at(), of, name.text(), list(")"));
        }
        return new Ast.Member(name.at(), of, name.text());
    }

    private String typeName() throws SyntaxException {
        StringBuilder name = new StringBuilder(take(Kind.NAME, "a type name").text());
        while (accept("::")) {
            name.append("::").append(take(Kind.NAME, "a type name").text());
        }
        if (accept("[")) {
            expect("]");
            name.append("[]");
        }
        if (peek().is(">>")) { // as<a>>b cannot be told apart from a shift by the lexer
            Token both = words.get(next);
            words.set(next, new Token(Kind.OPERATOR, ">", both.at() + 1, 0, 0));
            return name.toString();
        }
        if (peek().is(">=")) {
            throw new SyntaxException(peek().at(), "a blank is needed between '>' and '='");
        }
        expect(">");
        return name.toString();
    }

    private List<Ast> list(String closing) throws SyntaxException {
        List<Ast> items = new ArrayList<>();
        if (accept(closing)) {
            return items;
        }
        do {
            if (peek().is(closing)) {
                break;
            }
            items.add(choice());
        } while (accept(","));
        expect(closing);
        return items;
    }

    private Ast primary() throws SyntaxException {
        Token word = words.get(next);
        switch (word.kind()) {
            case INT, BIG_INT -> {
                next++;
                return new Ast.Int(word.at(), word.number(), word.kind() == Kind.BIG_INT);
            }
            case FLOAT -> {
                next++;
                return new Ast.Real(word.at(), word.real());
            }
            case STRING -> {
                next++;
                StringBuilder value = new StringBuilder(word.text());
                while (peek().kind() == Kind.STRING) { // strings side by side are one
                    value.append(words.get(next++).text());
                }
                return new Ast.Text(word.at(), value.toString());
            }
            case FORMAT_STRING -> {
                next++;
                return format(word);
            }
            case NAME -> {
                next++;
                return name(word);
            }
            default -> {
                if (accept("(")) {
                    Ast inner = choice();
                    expect(")");
                    return inner;
                }
                if (accept("[")) {
                    return new Ast.Array(word.at(), list("]"));
                }
                throw new SyntaxException(word.at(), "a value is expected instead of '" + word.text() + "'");
            }
        }
    }

    private Ast name(Token word) throws SyntaxException {
        if (word.text().equals("true") || word.text().equals("false")) {
            return new Ast.Bool(word.at(), word.text().equals("true"));
        }
        if ((word.text().equals("sizeof") || word.text().equals("bitsizeof")) && accept("<")) {
            return new Ast.SizeOf(word.at(), typeName(), word.text().equals("bitsizeof"));
        }
        if (!peek().is("::")) {
            return new Ast.Name(word.at(), word.text());
        }
        List<String> path = new ArrayList<>(List.of(word.text()));
        while (accept("::")) {
            path.add(take(Kind.NAME, "a name").text());
        }
        return new Ast.EnumMember(word.at(), path);
    }

    private Ast format(Token word) throws SyntaxException {
        List<Ast> parts = new ArrayList<>();
        String raw = word.text();
        int from = 0;
        while (from < raw.length()) {
            int open = raw.indexOf('{', from);
            if (open < 0) {
                open = raw.length();
            }
            if (open > from) {
                parts.add(new Ast.Text(word.at() + from, Lexer.unescape(raw.substring(from, open), word.at() + from)));
            }
            if (open == raw.length()) {
                break;
            }
            int close = closing(raw, open, word.at());
            enter();
            try {
                parts.add(parse(raw.substring(open + 1, close), depth));
            } catch (SyntaxException e) {
                throw new SyntaxException(word.at() + 2 + open + 1 + e.at(), e.getMessage());
            }
            depth--;
            from = close + 1;
        }
        return new Ast.Format(word.at(), parts);
    }

    private static int closing(String raw, int open, int at) throws SyntaxException {
        int level = 0;
        for (int i = open; i < raw.length(); i++) {
            level += raw.charAt(i) == '{' ? 1 : raw.charAt(i) == '}' ? -1 : 0;
            if (level == 0) {
                return i;
            }
        }
        throw new SyntaxException(at + open, "'{' has no closing '}'");
    }
}
