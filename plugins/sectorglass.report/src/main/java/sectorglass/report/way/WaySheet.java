package sectorglass.report.way;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

import sectorglass.disk.way.Calculation;
import sectorglass.disk.way.Reading;
import sectorglass.disk.way.WayStep;
import sectorglass.image.Texts;
import sectorglass.recovery.way.Way;
import sectorglass.report.document.Block;
import sectorglass.report.document.Html;
import sectorglass.report.document.Pdf;
import sectorglass.report.document.PlainText;

/** A way as a worked sheet: step by step, the fields, their places and values, the arithmetic, the next address. */
public final class WaySheet {
    private static final double[] FIELDS = {0.3, 0.14, 0.08, 0.24, 0.24};
    private static final double[] SUMS = {0.36, 0.42, 0.22};

    private final Way way;
    private final String image;
    private final Texts texts;

    /**
     * @param image name of the image, for the head
     * @param locale language
     */
    public WaySheet(Way way, String image, Locale locale) {
        this.way = way;
        this.image = image;
        texts = new Texts(WaySheet.class, locale);
    }

    /** The sheet as plain text. */
    public String text() {
        return PlainText.of(blocks());
    }

    /**
     * Writes the sheet as HTML, or as PDF where the name ends in {@code .pdf}.
     *
     * @throws java.nio.file.FileAlreadyExistsException if the file exists
     */
    public void write(Path file) throws IOException {
        if (file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".pdf")) {
            try (OutputStream out = Files.newOutputStream(file, StandardOpenOption.CREATE_NEW)) {
                Pdf.write(blocks(), title(), texts.locale(), (page, pages) -> texts.of("foot", title(), Integer.toString(page), Integer.toString(pages)), out);
            }
        } else {
            try (Html html = new Html(file, title(), texts.locale())) {
                html.add(blocks());
            }
        }
    }

    private String title() {
        return texts.of("title", way.path().isEmpty() ? "/" : way.path());
    }

    /** The parts of the sheet. */
    public List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Block.Title(title(), List.of(image, texts.of("volume", way.volume()), texts.of("sector-size", Integer.toString(way.sectorSize())))));
        if (!way.complete()) {
            blocks.add(new Block.Notice(texts.of("incomplete")));
        }
        for (int i = 0; i < way.steps().size(); i++) {
            step(i, blocks);
        }
        return blocks;
    }

    private void step(int index, List<Block> blocks) {
        WayStep step = way.steps().get(index);
        blocks.add(new Block.Heading((index + 1) + ". " + step.title()));
        blocks.add(new Block.Paragraph(texts.of("place", number(step.where().start() / way.sectorSize()), number(step.where().start() % way.sectorSize()),
                number(step.where().start())) + " " + step.text()));
        if (!step.readings().isEmpty()) {
            List<List<String>> rows = new ArrayList<>();
            for (Reading r : step.readings()) {
                rows.add(List.of(r.name(), number(r.where().start() / way.sectorSize()), number(r.where().start() % way.sectorSize()), r.hex(), r.value()));
            }
            blocks.add(new Block.Table(List.of(texts.of("field"), texts.of("lba"), texts.of("byte"), texts.of("bytes"), texts.of("value")),
                    new boolean[] {false, true, true, false, false}, FIELDS, rows, Set.of()));
        }
        if (!step.calculations().isEmpty()) {
            List<List<String>> rows = new ArrayList<>();
            for (Calculation c : step.calculations()) {
                rows.add(List.of(c.words(), c.numbers(), "= " + number(c.result())));
            }
            blocks.add(new Block.Table(List.of(texts.of("sum"), texts.of("numbers"), texts.of("result")), new boolean[] {false, false, true}, SUMS, rows, Set.of()));
        }
        if (step.stop() != null) {
            blocks.add(new Block.Notice(step.stop()));
        } else if (step.next() >= 0 && index + 1 < way.steps().size()) {
            blocks.add(new Block.Paragraph(texts.of("next", number(step.next()), number(step.next() / way.sectorSize()), number(step.next() % way.sectorSize()))));
        }
    }

    private static String number(long value) {
        return Long.toString(value);
    }
}
