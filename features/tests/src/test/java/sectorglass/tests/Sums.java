package sectorglass.tests;

import java.math.BigInteger;

/** Computes what a way writes down as arithmetic: + − × ÷ mod ^ and parentheses over whole numbers, strongest last; independent of whoever wrote it. */
final class Sums {
    private final String[] tokens;
    private int at;

    private Sums(String text) {
        tokens = text.replaceAll("([()×÷^+−])", " $1 ").strip().split("\\s+");
    }

    static long of(String text) {
        Sums sums = new Sums(text);
        BigInteger value = sums.sum();
        if (sums.at != sums.tokens.length) {
            throw new AssertionError("not understood: " + text);
        }
        return value.longValueExact();
    }

    private boolean next(String token) {
        if (at < tokens.length && tokens[at].equals(token)) {
            at++;
            return true;
        }
        return false;
    }

    private BigInteger sum() {
        BigInteger value = product();
        while (true) {
            if (next("+")) {
                value = value.add(product());
            } else if (next("−")) {
                value = value.subtract(product());
            } else {
                return value;
            }
        }
    }

    private BigInteger product() {
        BigInteger value = power();
        while (true) {
            if (next("×")) {
                value = value.multiply(power());
            } else if (next("÷")) {
                value = value.divide(power());
            } else if (next("mod")) {
                value = value.mod(power());
            } else {
                return value;
            }
        }
    }

    private BigInteger power() {
        BigInteger base;
        if (next("(")) {
            base = sum();
            if (!next(")")) {
                throw new AssertionError("no closing parenthesis at " + at);
            }
        } else {
            base = new BigInteger(tokens[at++]);
        }
        return next("^") ? base.pow(power().intValueExact()) : base;
    }
}
