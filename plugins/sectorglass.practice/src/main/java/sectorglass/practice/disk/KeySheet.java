package sectorglass.practice.disk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;

import sectorglass.image.Texts;
import sectorglass.report.document.Block;
import sectorglass.report.document.Html;
import sectorglass.report.document.PlainText;

/** The key as a page for the teacher. */
final class KeySheet {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
    private static final double[] WIDTHS = {0.2, 0.2, 0.17, 0.17, 0.26};

    private final AnswerKey key;
    private final long seed;
    private final Texts texts;

    KeySheet(AnswerKey key, long seed, Locale locale) {
        this.key = key;
        this.seed = seed;
        texts = new Texts(KeySheet.class, locale);
    }

    /** Writes HTML and text; older files of these names are replaced. */
    void write(Path html, Path text) throws IOException {
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Block.Title(texts.of("key.title"), List.of(texts.of("key.class", Long.toString(seed)))));
        for (DiskKey disk : key.disks()) {
            add(disk, blocks);
        }
        Files.deleteIfExists(html);
        try (Html out = new Html(html, texts.of("key.title"), texts.locale())) {
            out.add(blocks);
        }
        Files.writeString(text, PlainText.of(blocks));
    }

    private void add(DiskKey disk, List<Block> blocks) {
        blocks.add(new Block.Heading((disk.seat() > 0 ? texts.of("sheet.seat", disk.seat()) + ": " : "") + texts.of("key.disk", disk.code())));
        blocks.add(new Block.Paragraph(texts.of("key.about", disk.level(), Long.toString(disk.seed()), disk.image())));
        if (disk.faults().isEmpty()) {
            blocks.add(new Block.Paragraph(texts.of("key.sound")));
            return;
        }
        List<List<String>> rows = new ArrayList<>();
        for (KeyFault fault : disk.faults()) {
            for (Place place : fault.places()) {
                boolean first = place == fault.places().get(0);
                rows.add(List.of(place(texts, place.firstByte(), disk.sectorSize()), first ? fault.check() : "", HEX.formatHex(place.right()),
                        HEX.formatHex(place.wrong()), first ? fault.what() : ""));
            }
        }
        blocks.add(TaskSheet.table(List.of(texts.of("key.column.place"), texts.of("key.column.check"), texts.of("key.column.right"), texts.of("key.column.wrong"),
                texts.of("key.column.what")), WIDTHS, rows));
    }

    static String place(Texts texts, long at, int sectorSize) {
        return texts.of("key.place", Long.toString(at / sectorSize), Long.toString(at % sectorSize));
    }
}
