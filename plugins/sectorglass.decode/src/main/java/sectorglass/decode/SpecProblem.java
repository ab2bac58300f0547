package sectorglass.decode;

/**
 * A mistake in a spec.
 *
 * @param file name of the spec
 * @param line from 1
 * @param column from 1
 * @param sentence what is wrong and what is allowed
 */
public record SpecProblem(String file, int line, int column, String sentence) {

    @Override
    public String toString() {
        return file + ":" + line + ":" + column + ": " + sentence;
    }
}
