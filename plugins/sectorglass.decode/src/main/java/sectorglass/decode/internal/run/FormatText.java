package sectorglass.decode.internal.run;

/** Text with values in it. */
public final class FormatText extends Expr {
    private final Expr[] parts;

    /** The texts of the parts, joined. */
    public FormatText(Expr[] parts) {
        super(ValueType.STR);
        this.parts = parts;
    }

    @Override
    public Object eval(StructNode self) {
        StringBuilder text = new StringBuilder();
        for (Expr part : parts) {
            String piece = Methods.text(part.eval(self), part.type().unsigned64());
            self.run().made(piece.length());
            text.append(piece);
        }
        return text.toString();
    }
}
