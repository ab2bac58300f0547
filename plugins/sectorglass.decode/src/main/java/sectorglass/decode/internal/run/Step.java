package sectorglass.decode.internal.run;

/**
 * Reads a field. A step never throws because of bytes: what cannot be read becomes a node with trouble. Where the end of the field is not
 * known, it sets {@link Run#lost}.
 */
public abstract class Step {

    /**
     * Reads one value.
     *
     * @param run the run
     * @param self the structure whose expressions it uses
     * @param parent the node that the value becomes a child of: {@code self}, or an array in it
     * @param io the stream to read from
     * @param index index in the array, or -1
     * @return the node, or null where the field does not exist here
     */
    abstract Node read(Run run, StructNode self, Node parent, WindowStream io, int index);
}
