package sectorglass.workbench.recovery.search;

import java.util.List;

/**
 * A line of the tree.
 *
 * @param cells one text per column
 * @param firstByte image byte it leads to, or -1
 * @param length of the bytes there
 * @param reasons for people, line by line
 * @param children lines below it
 */
record FoundRow(String[] cells, long firstByte, long length, String reasons, List<FoundRow> children) { }
