package sectorglass.make.write;

/**
 * Neighbouring clusters.
 *
 * @param first number of the first one
 * @param count how many, at least 1
 */
public record ClusterRun(long first, long count) {

    /** First cluster after the run. */
    public long end() {
        return first + count;
    }
}
