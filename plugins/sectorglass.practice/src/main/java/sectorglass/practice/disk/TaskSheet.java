package sectorglass.practice.disk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Set;

import sectorglass.image.Texts;
import sectorglass.report.document.Block;
import sectorglass.report.document.Html;
import sectorglass.report.document.PlainText;

/** The task sheet of a disk, for print and as plain text: what is given, what to do, what counts, and lines to write on. It tells neither seed nor faults. */
final class TaskSheet {
    private static final int LINES = 5;

    private final DiskKey disk;
    private final boolean exam;
    private final Texts texts;

    TaskSheet(DiskKey disk, boolean exam, Locale locale) {
        this.disk = disk;
        this.exam = exam;
        texts = new Texts(TaskSheet.class, locale);
    }

    /** Writes HTML and text; older files of these names are replaced. */
    void write(Path html, Path text, String form) throws IOException {
        List<Block> blocks = blocks(form);
        Files.deleteIfExists(html);
        try (Html out = new Html(html, texts.of("sheet.title", disk.code()), texts.locale())) {
            out.add(blocks);
        }
        Files.writeString(text, PlainText.of(blocks));
    }

    private List<Block> blocks(String form) {
        List<Block> blocks = new ArrayList<>();
        List<String> below = new ArrayList<>(List.of(texts.of("sheet.level", disk.level())));
        if (disk.seat() > 0) {
            below.add(texts.of("sheet.seat", disk.seat()));
        }
        blocks.add(new Block.Title(texts.of("sheet.title", disk.code()), below));
        blocks.add(new Block.Paragraph(texts.of("sheet.story")));
        if (exam) {
            blocks.add(new Block.Notice(texts.of("sheet.exam")));
        }
        blocks.add(new Block.Heading(texts.of("sheet.given")));
        String size = texts.of("sheet.size", Long.toString(disk.sectors()), Long.toString(disk.sectorSize()), Long.toString(disk.sectors() * disk.sectorSize()));
        blocks.add(table(List.of("", ""), new double[] {0.22, 0.78}, List.of(List.of(texts.of("sheet.image"), disk.image() + ", " + size),
                List.of(texts.of("sheet.sha"), disk.sha256()), List.of(texts.of("sheet.form"), form))));
        blocks.add(new Block.Heading(texts.of("sheet.task")));
        for (int i = 1; i <= 5; i++) {
            blocks.add(new Block.Paragraph(i + ". " + texts.of("sheet.task." + i)));
        }
        blocks.add(new Block.Heading(texts.of("sheet.points")));
        blocks.add(new Block.Paragraph(texts.of("sheet.points.text", Grading.COUNT, Grading.CHECK, Grading.PLACE, Grading.VALUE, Grading.FALSE)));
        blocks.add(new Block.Heading(texts.of("sheet.answers")));
        List<List<String>> rows = new ArrayList<>();
        for (int i = 1; i <= LINES; i++) {
            List<String> row = new ArrayList<>(Collections.nCopies(5, ""));
            row.set(0, Integer.toString(i));
            rows.add(row);
        }
        blocks.add(table(List.of(texts.of("sheet.column.number"), texts.of("sheet.column.lba"), texts.of("sheet.column.byte"), texts.of("sheet.column.check"),
                texts.of("sheet.column.value")), new double[] {0.07, 0.16, 0.12, 0.33, 0.32}, rows));
        blocks.add(new Block.Approval(List.of(), List.of(texts.of("sheet.name"), texts.of("sheet.date"))));
        return blocks;
    }

    static Block.Table table(List<String> columns, double[] widths, List<List<String>> rows) {
        return new Block.Table(columns, new boolean[columns.size()], widths, rows, Set.of());
    }
}
