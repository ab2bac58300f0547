package sectorglass.report.card;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

import sectorglass.decode.FormatOutline;
import sectorglass.image.Texts;
import sectorglass.report.document.Block;
import sectorglass.report.document.Html;
import sectorglass.report.document.Pdf;

/** The card of one structure: what it is, its fields with offset, length, name and meaning, its parts, its source. */
public final class ReferenceCard {
    private static final double[] WIDTHS = {0.09, 0.15, 0.26, 0.5};
    private static final int SHOWN_VALUES = 12;
    private static final Pattern UNDERSCORES = Pattern.compile("_(?=[a-z0-9])");

    private final FormatOutline outline;
    private final Texts texts;

    /** @param locale language of the words around the fields; labels are those of the spec */
    public ReferenceCard(FormatOutline outline, Locale locale) {
        this.outline = outline;
        texts = new Texts(ReferenceCard.class, locale);
    }

    /**
     * Writes {@code ID.html} and {@code ID.pdf}.
     *
     * @throws java.nio.file.FileAlreadyExistsException if one of the files exists
     */
    public void write(Path folder) throws IOException {
        List<Block> blocks = blocks();
        try (Html html = new Html(folder.resolve(outline.id() + ".html"), outline.title(), texts.locale())) {
            html.add(blocks);
        }
        try (OutputStream out = Files.newOutputStream(folder.resolve(outline.id() + ".pdf"), StandardOpenOption.CREATE_NEW)) {
            Pdf.write(blocks, outline.title(), texts.locale(), (page, pages) -> texts.of("foot", outline.id(), Integer.toString(page), Integer.toString(pages)), out);
        }
    }

    /** The parts of the card. */
    public List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Block.Title(outline.title(), List.of(texts.of("below", outline.id()))));
        if (outline.doc() != null) {
            blocks.add(new Block.Paragraph(outline.doc()));
        }
        boolean open = false;
        for (FormatOutline.Part part : outline.parts()) {
            if (part.rows().isEmpty()) {
                continue;
            }
            if (!part.name().isEmpty()) {
                blocks.add(new Block.Heading(texts.of("part", part.name())));
                if (part.doc() != null) {
                    blocks.add(new Block.Paragraph(part.doc()));
                }
            }
            List<List<String>> rows = new ArrayList<>();
            for (FormatOutline.Row row : part.rows()) {
                open |= row.offset().startsWith("n");
                rows.add(List.of(words(row.offset()), length(row), row.name(), meaning(row)));
            }
            blocks.add(new Block.Table(List.of(texts.of("offset"), texts.of("length"), texts.of("name"), texts.of("meaning")),
                    new boolean[] {true, false, false, false}, WIDTHS, rows, Set.of()));
        }
        if (open) {
            blocks.add(new Block.Paragraph(texts.of("open")));
        }
        if (outline.source() != null) {
            blocks.add(new Block.Paragraph(texts.of("source", outline.source())));
        }
        return blocks;
    }

    private String length(FormatOutline.Row row) {
        String length = row.toEnd() ? texts.of("to-end") : row.length().isEmpty() ? texts.of("varies") : words(row.length());
        if (row.times() == null) {
            return length;
        }
        return row.times().equals("*") ? texts.of("repeated", length) : texts.of("times", words(row.times()), length);
    }

    private String meaning(FormatOutline.Row row) {
        StringBuilder text = new StringBuilder(row.doc() == null ? "" : row.doc());
        if (row.part() != null) {
            text.append(text.isEmpty() ? "" : " ").append(texts.of("see", row.part()));
        }
        if (row.condition() != null) {
            text.append(text.isEmpty() ? "" : " ").append(texts.of("only", words(row.condition())));
        }
        List<FormatOutline.Value> values = row.values();
        for (int i = 0; i < Math.min(SHOWN_VALUES, values.size()); i++) {
            FormatOutline.Value value = values.get(i);
            text.append(i == 0 ? text.isEmpty() ? "" : " " : "; ").append(value.value()).append(value.meaning().isEmpty() ? "" : ": " + value.meaning());
        }
        if (values.size() > SHOWN_VALUES) {
            text.append("; ").append(texts.of("more", values.size() - SHOWN_VALUES));
        }
        return text.append(!values.isEmpty() ? "." : "").toString();
    }

    /** An expression of the spec for people: names without underscores, spaces where a line may break. */
    private static String words(String expression) {
        return UNDERSCORES.matcher(expression.replace("_io.size", "size").replace("_io.pos", "place").replace(".as<u8>", "")).replaceAll(" ");
    }
}
