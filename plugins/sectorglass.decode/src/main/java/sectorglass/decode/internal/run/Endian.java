package sectorglass.decode.internal.run;

/**
 * How a type decides its byte order.
 *
 * @param on the value that decides
 * @param cases values to compare with
 * @param little what each case means
 * @param otherwise what {@code _} means, or null where there is no such case
 */
public record Endian(Expr on, Expr[] cases, boolean[] little, Boolean otherwise) {

    /** The byte order in a structure, or null where no case fits. */
    Boolean decide(StructNode self) {
        Object value = on.eval(self);
        for (int i = 0; i < cases.length; i++) {
            if (Values.equal(value, cases[i].eval(self))) {
                return little[i];
            }
        }
        return otherwise;
    }
}
