package sectorglass.decode;

import java.util.List;

/**
 * A line of the index of formats.
 *
 * @param id the spec's {@code meta/id}
 * @param title the spec's {@code meta/title}
 * @param bundle symbolic name of the bundle that owns it
 * @param file name in the bundle's folder
 * @param kinds words for the kinds of structure it describes ({@code meta/-kinds}), may be empty
 */
public record FormatInfo(String id, String title, String bundle, String file, List<String> kinds) { }
