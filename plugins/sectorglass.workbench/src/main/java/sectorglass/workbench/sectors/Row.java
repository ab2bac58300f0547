package sectorglass.workbench.sectors;

import java.util.List;

import sectorglass.workbench.model.Span;

/**
 * A row as it is laid out.
 *
 * @param address image byte of its first byte
 * @param count bytes in it
 * @param y top edge
 * @param height of the row with its gloss
 * @param spans fields that hold a byte of the row
 * @param named those that begin in it, with their labels
 * @param labels labels of {@code named}
 * @param placed where the labels stand
 */
record Row(long address, int count, int y, int height, List<Span> spans, List<Span> named, List<Label> labels, LabelLines.Placed placed) {

    long end() {
        return address + count;
    }
}
