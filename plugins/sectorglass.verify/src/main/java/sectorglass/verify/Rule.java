package sectorglass.verify;

import java.util.List;

/**
 * One rule of a format.
 *
 * @param id stable, lower case, format first: {@code gpt.header.crc32}
 * @param severity of a failed check, unless the checker knows better
 * @param source which standard says so, with section
 * @param followsFrom ids of rules whose failing in the same structure explains a failing of this one; may end in {@code *}
 * @param covers whether a failing explains every other failing from the first byte of its structure to the end of the image
 * @param full whether the rule is checked only when every record and cluster map is read
 */
public record Rule(String id, Severity severity, String source, List<String> followsFrom, boolean covers, boolean full) { }
