package sectorglass.decode;

import java.util.Map;

import sectorglass.image.Progress;

/**
 * How to run a spec.
 *
 * @param params values for the spec's {@code params} by id; {@code sector_size} is given by callers where a spec asks for it
 * @param maxNodes nodes after which decoding ends with a mark
 * @param maxDepth depth of nesting after which decoding ends with a mark
 * @param progress can cancel
 */
public record DecodeOptions(Map<String, Object> params, int maxNodes, int maxDepth, Progress progress) {

    /** 200,000 nodes, depth 64, no parameters. */
    public static final DecodeOptions DEFAULT = new DecodeOptions(Map.of(), 200_000, 64, Progress.NONE);

    /** The same with parameters. */
    public DecodeOptions withParams(Map<String, ?> values) {
        return new DecodeOptions(Map.copyOf(values), maxNodes, maxDepth, progress);
    }
}
