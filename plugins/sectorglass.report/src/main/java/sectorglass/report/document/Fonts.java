package sectorglass.report.document;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/** The fonts of a PDF: one for most scripts, one for Chinese and Japanese, one for Korean; of each only the letters used are embedded. */
final class Fonts implements AutoCloseable {
    private static final int UNKNOWN = 0xFFFD;

    private final List<TrueTypeFont> files = new ArrayList<>();
    private final Face[] plain;
    private final Face[] bold;

    /** A font, ready to measure and show. */
    record Face(PDType0Font font, CmapLookup letters, Map<Integer, Float> widths, TrueTypeFont file) {

        boolean has(int letter) {
            return letters.getGlyphId(letter) != 0;
        }

        /** Width of a letter in thousandths of the size. */
        float width(int letter) {
            return widths.computeIfAbsent(letter, l -> {
                try {
                    return file.getAdvanceWidth(letters.getGlyphId(l)) * 1000f / file.getUnitsPerEm();
                } catch (IOException e) {
                    throw new java.io.UncheckedIOException(e);
                }
            });
        }
    }

    /** A piece of a line in one font. */
    record Run(Face face, String text) { }

    Fonts(PDDocument document) throws IOException {
        Face chinese = face(document, "DroidSansFallbackFull.ttf");
        Face korean = face(document, "NanumGothic.ttf");
        plain = new Face[] {face(document, "DejaVuSans.ttf"), chinese, korean};
        bold = new Face[] {face(document, "DejaVuSans-Bold.ttf"), chinese, korean};
    }

    private Face face(PDDocument document, String name) throws IOException {
        try (InputStream in = Fonts.class.getResourceAsStream("fonts/" + name)) {
            TrueTypeFont file = new TTFParser().parse(new RandomAccessReadBuffer(in));
            files.add(file);
            return new Face(PDType0Font.load(document, file, true), file.getUnicodeCmapLookup(), new LinkedHashMap<>(), file);
        }
    }

    private static Face faceOf(Face[] faces, int letter) {
        for (Face face : faces) {
            if (face.has(letter)) {
                return face;
            }
        }
        return null;
    }

    /**
     * A text in display order as pieces; letters that no font has become a replacement character. A piece ends behind an f, since the library would
     * join it to what follows, and whoever searches or copies the text would not find it.
     */
    List<Run> runs(String text, boolean strong) {
        Face[] faces = strong ? bold : plain;
        List<Run> runs = new ArrayList<>();
        StringBuilder piece = new StringBuilder();
        Face last = null;
        for (int i = 0; i < text.length();) {
            int letter = text.codePointAt(i);
            i += Character.charCount(letter);
            Face face = faceOf(faces, letter);
            if (face == null) {
                letter = UNKNOWN;
                face = faces[0];
            }
            if (face != last && piece.length() > 0) {
                runs.add(new Run(last, piece.toString()));
                piece.setLength(0);
            }
            last = face;
            piece.appendCodePoint(letter);
            if (letter == 'f') {
                runs.add(new Run(last, piece.toString()));
                piece.setLength(0);
            }
        }
        if (piece.length() > 0) {
            runs.add(new Run(last, piece.toString()));
        }
        return runs;
    }

    /** Width of a letter at size 1. */
    float width(int letter, boolean strong) {
        Face[] faces = strong ? bold : plain;
        Face face = faceOf(faces, letter);
        return (face == null ? faces[0].width(UNKNOWN) : face.width(letter)) / 1000f;
    }

    /** Width of a text at a size, in points. */
    float width(String text, boolean strong, float size) {
        float sum = 0;
        for (int i = 0; i < text.length();) {
            int letter = text.codePointAt(i);
            i += Character.charCount(letter);
            sum += width(letter, strong);
        }
        return sum * size;
    }

    /** Closes the files; only after the document was saved. */
    @Override
    public void close() throws IOException {
        for (TrueTypeFont file : files) {
            file.close();
        }
    }
}
