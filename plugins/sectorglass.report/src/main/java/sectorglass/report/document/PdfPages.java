package sectorglass.report.document;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;

import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.PDPageContentStream.AppendMode;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.color.PDDeviceRGB;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;

import sectorglass.image.SafeText;

/** The pages of a PDF and the place where the next line goes. Lengths are points; a page is begun when the last one is full. */
final class PdfPages {
    /** Width of the text. */
    static final float WIDTH = 487;
    private static final float LEFT = 54;
    private static final float TOP = 790;
    private static final float BOTTOM = 62;

    private final PDDocument document;
    private final Fonts fonts;
    private final List<PDPage> pages = new ArrayList<>();
    private PDPageContentStream to;
    private float y;
    private float[] colour = {0, 0, 0};

    PdfPages(PDDocument document, Fonts fonts) throws IOException {
        this.document = document;
        this.fonts = fonts;
        page();
    }

    void page() throws IOException {
        if (to != null) {
            to.close();
        }
        PDPage page = new PDPage(PDRectangle.A4);
        document.addPage(page);
        pages.add(page);
        to = new PDPageContentStream(document, page);
        y = TOP;
        colour(colour[0], colour[1], colour[2]);
    }

    /** Begins a page if less than this is left. Tells whether it did. */
    boolean need(float height) throws IOException {
        if (y - height < BOTTOM) {
            page();
            return true;
        }
        return false;
    }

    void space(float height) {
        y -= height;
    }

    /** Goes down to the base of the next line. */
    void down(float height) throws IOException {
        need(height);
        y -= height;
    }

    void colour(float red, float green, float blue) throws IOException {
        colour = new float[] {red, green, blue};
        to.setNonStrokingColor(red, green, blue);
    }

    float width(String text, boolean strong, float size) {
        return fonts.width(DisplayOrder.of(SafeText.of(text)), strong, size);
    }

    /** Sets a text on the line; x counts from the left edge of the text. */
    void text(String text, float x, boolean strong, float size) throws IOException {
        at(DisplayOrder.of(SafeText.of(text)), LEFT + x, y, strong, size);
    }

    private void at(String display, float x, float base, boolean strong, float size) throws IOException {
        to.beginText();
        to.newLineAtOffset(x, base);
        for (Fonts.Run run : fonts.runs(display, strong)) {
            to.setFont(run.face().font(), size);
            to.showText(run.text());
        }
        to.endText();
    }

    /** Sets a paragraph over the whole width. */
    void paragraph(String text, boolean strong, float size, float leading) throws IOException {
        for (String line : lines(text, strong, size, WIDTH)) {
            down(size * leading);
            text(line, 0, strong, size);
        }
    }

    /** Sets a paragraph whose first line is the present one. */
    void indented(String text, float x, float size) throws IOException {
        boolean first = true;
        for (String line : lines(text, false, size, WIDTH - x)) {
            if (!first) {
                down(size * 1.4f);
            }
            text(line, x, false, size);
            first = false;
        }
    }

    void notice(String text, float size) throws IOException {
        List<String> lines = lines(text, false, size, WIDTH - 16);
        float height = lines.size() * size * 1.45f + 10;
        need(height);
        to.setNonStrokingColor(0.955f, 0.955f, 0.945f);
        to.addRect(LEFT, y - height, WIDTH, height);
        to.fill();
        to.setNonStrokingColor(0.902f, 0.624f, 0f);
        to.addRect(LEFT, y - height, 3, height);
        to.fill();
        colour(colour[0], colour[1], colour[2]);
        y -= 4;
        for (String line : lines) {
            y -= size * 1.45f;
            at(DisplayOrder.of(line), LEFT + 12, y + 2, false, size);
        }
        y -= 6;
    }

    /** Breaks a text into lines that fit; between words, else anywhere. */
    List<String> lines(String any, boolean strong, float size, float room) {
        String text = SafeText.of(any);
        List<String> lines = new ArrayList<>();
        int start = 0;
        while (start < text.length()) {
            float used = 0;
            int at = start;
            int word = -1;
            while (at < text.length()) {
                int letter = text.codePointAt(at);
                used += fonts.width(letter, strong) * size;
                if (used > room && at > start) {
                    break;
                }
                at += Character.charCount(letter);
                if (letter == ' ' || letter == '/' || letter == '\\') {
                    word = at;
                }
            }
            int end = at >= text.length() ? text.length() : word > start ? word : at;
            lines.add(text.substring(start, end).stripTrailing());
            start = end;
        }
        return lines.isEmpty() ? List.of("") : lines;
    }

    void rule(float x, float above, float width, float thick) throws IOException {
        to.setLineWidth(thick);
        to.setStrokingColor(0, 0, 0);
        to.moveTo(LEFT + x, y + above);
        to.lineTo(LEFT + x + width, y + above);
        to.stroke();
    }

    void hair(float below) throws IOException {
        to.setLineWidth(0.4f);
        to.setStrokingColor(0.75f, 0.75f, 0.75f);
        to.moveTo(LEFT, y - below);
        to.lineTo(LEFT + WIDTH, y - below);
        to.stroke();
    }

    void frame(float x, float above, float width, float height) throws IOException {
        to.setLineWidth(0.9f);
        to.setStrokingColor(0, 0, 0);
        to.addRect(LEFT + x, y + above, width, height);
        to.stroke();
    }

    /** A filled part of a bar; the second and third kind also carry strokes, for those who see no colour. */
    void part(float x, float above, float width, float height, float[] fill, int kind) throws IOException {
        to.setNonStrokingColor(fill[0], fill[1], fill[2]);
        to.addRect(LEFT + x, y + above, width, height);
        to.fill();
        if (kind == 1 || kind == 2) {
            to.setLineWidth(0.7f);
            to.setStrokingColor(1f, 1f, 1f);
            for (float at = 2; at < width; at += 4) {
                to.moveTo(LEFT + x + at, y + above);
                to.lineTo(LEFT + x + (kind == 1 ? Math.min(width, at + 3) : at), y + above + height);
            }
            to.stroke();
        }
        colour(colour[0], colour[1], colour[2]);
    }

    /** Sets a picture whose lower edge is this much below the line. */
    void picture(Block.Picture picture, float x, float below, float width, float height) throws IOException {
        PDImageXObject image = new PDImageXObject(document, new ByteArrayInputStream(picture.jpeg()), COSName.DCT_DECODE, picture.width(), picture.height(), 8,
                PDDeviceRGB.INSTANCE);
        to.drawImage(image, LEFT + x, y - below, width, height);
    }

    /** Ends the last page and writes the foot of each. */
    void end(BiFunction<Integer, Integer, String> foot) throws IOException {
        to.close();
        for (int i = 0; i < pages.size(); i++) {
            to = new PDPageContentStream(document, pages.get(i), AppendMode.APPEND, true, true);
            to.setNonStrokingColor(0.4f, 0.4f, 0.4f);
            at(DisplayOrder.of(SafeText.of(foot.apply(i + 1, pages.size()))), LEFT, 34, false, 7.5f);
            to.close();
        }
    }
}
