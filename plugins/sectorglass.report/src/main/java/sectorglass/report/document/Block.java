package sectorglass.report.document;

import java.util.List;

/** A part of a document. Texts are plain: writers make them safe. */
public sealed interface Block {

    /** The title with lines below it: reference, date. */
    record Title(String text, List<String> below) implements Block { }

    /** A heading of a section. */
    record Heading(String text) implements Block { }

    /** A paragraph. */
    record Paragraph(String text) implements Block { }

    /** Something that must not be overlooked. */
    record Notice(String text) implements Block { }

    /**
     * A table.
     *
     * @param columns their titles
     * @param right whether a column holds numbers
     * @param widths of the columns in print, in parts of the whole
     * @param rows cells, as many as columns
     * @param strong rows, by index, that stand out: totals
     */
    record Table(List<String> columns, boolean[] right, double[] widths, List<List<String>> rows, java.util.Set<Integer> strong) implements Block { }

    /**
     * Bars side by side to scale, one per row.
     *
     * @param parts names of the parts of a bar, in order: whole, damaged, lost
     * @param bars the rows
     */
    record Bars(List<String> parts, List<Bar> bars) implements Block { }

    /** A bar: its name, what stands behind it, the sizes of its parts. */
    record Bar(String name, String value, double[] sizes) { }

    /** Small pictures side by side, each with its name below. */
    record Pictures(List<Picture> pictures) implements Block { }

    /**
     * A small picture.
     *
     * @param name of its file
     * @param jpeg a JPEG file with red, green and blue
     * @param width in points
     * @param height in points
     */
    record Picture(String name, byte[] jpeg, int width, int height) { }

    /** Room for approval: sentences to tick, and lines to write on with their captions. */
    record Approval(List<String> ticks, List<String> lines) implements Block { }
}
