package sectorglass.report.document;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import java.util.Locale;
import java.util.function.BiFunction;

import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;

import sectorglass.image.SafeText;

/** Writes a document as PDF, A4, page by page, with its fonts embedded. */
public final class Pdf {
    private static final float PLAIN = 9.5f;
    private static final float SMALL = 8f;
    /** Room for a heading, its paragraph and the first row of pictures, which stay together. */
    private static final float HEADED_PICTURES = 220;
    private static final float[][] COLOURS = {{0, 0.447f, 0.698f}, {0.902f, 0.624f, 0}, {0.35f, 0.35f, 0.35f}, {0.85f, 0.85f, 0.85f}};

    private final PdfPages pages;

    private Pdf(PdfPages pages) {
        this.pages = pages;
    }

    /**
     * Writes a document.
     *
     * @param foot text at the foot of each page, from its number and the number of pages
     */
    public static void write(List<Block> blocks, String title, Locale locale, BiFunction<Integer, Integer, String> foot, OutputStream out) throws IOException {
        try (PDDocument document = new PDDocument(); Fonts fonts = new Fonts(document)) {
            PDDocumentInformation info = new PDDocumentInformation();
            info.setTitle(SafeText.of(title));
            info.setProducer("Sectorglass");
            document.setDocumentInformation(info);
            document.getDocumentCatalog().setLanguage(locale.toLanguageTag());
            PdfPages pages = new PdfPages(document, fonts);
            Pdf pdf = new Pdf(pages);
            for (int i = 0; i < blocks.size(); i++) {
                if (blocks.get(i) instanceof Block.Heading && i + 2 < blocks.size() && blocks.get(i + 2) instanceof Block.Pictures) {
                    pages.need(HEADED_PICTURES);
                }
                pdf.add(blocks.get(i));
            }
            pages.end(foot);
            document.save(out, CompressParameters.NO_COMPRESSION);
        }
    }

    private void add(Block block) throws IOException {
        if (block instanceof Block.Title title) {
            pages.paragraph(title.text(), true, 20, 1.2f);
            pages.space(3);
            pages.colour(0.35f, 0.35f, 0.35f);
            pages.paragraph(String.join("   \u00B7   ", title.below()), false, PLAIN, 1.4f);
            pages.colour(0, 0, 0);
            pages.space(10);
        } else if (block instanceof Block.Heading heading) {
            pages.space(14);
            pages.need(70);
            pages.paragraph(heading.text(), true, 12, 1.3f);
            pages.space(3);
        } else if (block instanceof Block.Paragraph paragraph) {
            pages.paragraph(paragraph.text(), false, PLAIN, 1.45f);
            pages.space(4);
        } else if (block instanceof Block.Notice notice) {
            pages.notice(notice.text(), PLAIN);
            pages.space(6);
        } else if (block instanceof Block.Table table) {
            new PdfTable(pages, table, SMALL).write();
            pages.space(6);
        } else if (block instanceof Block.Bars bars) {
            bars(bars);
        } else if (block instanceof Block.Pictures pictures) {
            new PdfPictures(pages).write(pictures.pictures());
            pages.space(6);
        } else if (block instanceof Block.Approval approval) {
            approval(approval);
        }
    }

    private void bars(Block.Bars bars) throws IOException {
        pages.need(30);
        float at = 0;
        pages.down(SMALL * 1.6f);
        for (int i = 0; i < bars.parts().size(); i++) {
            pages.part(at, 0, 7, 7, COLOURS[i], i);
            pages.text(bars.parts().get(i), at + 11, false, SMALL);
            at += pages.width(bars.parts().get(i), false, SMALL) + 32;
        }
        double most = bars.bars().stream().mapToDouble(bar -> java.util.Arrays.stream(bar.sizes()).sum()).max().orElse(0);
        float name = (float) bars.bars().stream().mapToDouble(bar -> pages.width(bar.name(), false, SMALL)).max().orElse(0) + 10;
        float value = (float) bars.bars().stream().mapToDouble(bar -> pages.width(bar.value(), false, SMALL)).max().orElse(0) + 10;
        float room = PdfPages.WIDTH - name - value;
        for (Block.Bar bar : bars.bars()) {
            pages.need(16);
            pages.down(SMALL * 1.7f);
            pages.text(bar.name(), 0, false, SMALL);
            at = name;
            for (int i = 0; i < bar.sizes().length; i++) {
                float width = most == 0 ? 0 : (float) (bar.sizes()[i] * room / most);
                width = bar.sizes()[i] > 0 ? Math.max(1.5f, width) : 0;
                if (width > 0) {
                    pages.part(at, -1, width, 8, COLOURS[i], i);
                }
                at += width;
            }
            pages.text(bar.value(), PdfPages.WIDTH - pages.width(bar.value(), false, SMALL), false, SMALL);
        }
        pages.space(8);
    }

    private void approval(Block.Approval approval) throws IOException {
        pages.need(40 + approval.ticks().size() * 20f + approval.lines().size() * 26f);
        for (String tick : approval.ticks()) {
            pages.down(PLAIN * 1.9f);
            pages.frame(0, -1, 9, 9);
            pages.indented(tick, 18, PLAIN);
        }
        for (int i = 0; i < approval.lines().size(); i++) {
            if (i % 2 == 0) {
                pages.down(48);
            }
            float left = i % 2 == 0 ? 0 : PdfPages.WIDTH * 0.54f;
            pages.rule(left, 10, PdfPages.WIDTH * 0.46f, 0.6f);
            pages.text(approval.lines().get(i), left, false, SMALL);
        }
        pages.space(10);
    }
}
