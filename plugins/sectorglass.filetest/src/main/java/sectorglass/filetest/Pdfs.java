package sectorglass.filetest;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.cos.COSObjectKey;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.encryption.InvalidPasswordException;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * PDF documents: the mark of the end and the table of objects stand where they should, each object begins where the table says, every object
 * can be parsed, every deflated stream is whole with its checksum (ISO 32000-1, sections 7.5 and 7.4.4). The library alone would mend a broken
 * table silently.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class Pdfs implements FileTest {
    private static final int END = 2048;
    private static final Pattern START = Pattern.compile("startxref\\s+(\\d{1,18})\\s+%%EOF", Pattern.DOTALL);
    private static final Pattern OBJECT = Pattern.compile("\\s*(\\d{1,10})\\s+(\\d{1,5})\\s+obj", Pattern.DOTALL);
    private static final FileType PDF = new FileType("pdf", "PDF", List.of("pdf", "ai"), head -> FileType.has(head, 0, "%PDF-"));

    /** What the library mends or dislikes is found here by other means; kept, since loggers are forgotten otherwise. */
    private static final List<Logger> SILENT = List.of(Logger.getLogger("org.apache.pdfbox"), Logger.getLogger("org.apache.fontbox"));

    static {
        SILENT.forEach(logger -> logger.setLevel(Level.OFF));
    }

    @Override
    public List<FileType> types() {
        return List.of(PDF);
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        int length = (int) Math.min(END, file.bytes());
        String end = file.text(file.bytes() - length, length);
        Matcher start = START.matcher(end);
        long table = -1;
        while (start.find()) {
            table = Long.parseLong(start.group(1));
        }
        if (table < 0) {
            return TestResult.damaged("test.end");
        }
        String at = table < file.bytes() ? file.text(table, (int) Math.min(64, file.bytes() - table)) : "";
        if (!at.stripLeading().startsWith("xref") && !OBJECT.matcher(at).lookingAt()) {
            return TestResult.damaged("test.form", table, "no table of objects");
        }
        try (PDDocument document = Loader.loadPDF(new PdfBytes(file))) {
            TestResult objects = objects(document, file);
            if (objects != null) {
                return objects;
            }
            return document.getNumberOfPages() == 0 ? TestResult.damaged("test.pages") : TestResult.opened();
        } catch (InvalidPasswordException e) {
            return TestResult.notTested("test.password");
        }
    }

    private static TestResult objects(PDDocument document, TestedFile file) throws IOException {
        for (Map.Entry<COSObjectKey, Long> entry : List.copyOf(document.getDocument().getXrefTable().entrySet())) {
            file.checkTime();
            COSObjectKey key = entry.getKey();
            long place = entry.getValue();
            if (place > 0) {
                Matcher header = OBJECT.matcher(place < file.bytes() ? file.text(place, (int) Math.min(40, file.bytes() - place)) : "");
                if (!header.lookingAt() || Long.parseLong(header.group(1)) != key.getNumber()) {
                    return TestResult.damaged("test.form", place, "object " + key.getNumber());
                }
            }
            COSObject object = document.getDocument().getObjectFromPool(key);
            COSBase base = object.getObject();
            if (base instanceof COSStream stream) {
                String wrong = stream(stream, file);
                if (wrong != null) {
                    return TestResult.damaged("test.stream", key.getNumber(), wrong);
                }
            } else if (base == null && place > 0 && !file.text(place, (int) Math.min(60, file.bytes() - place)).contains("null")) {
                return TestResult.damaged("test.form", place, "object " + key.getNumber());
            }
        }
        return null;
    }

    /** What is wrong with a stream, or null; only the outermost compression is undone. */
    private static String stream(COSStream stream, TestedFile file) throws IOException {
        COSBase filter = stream.getFilters();
        COSName first = filter instanceof COSName name ? name : filter instanceof COSArray all && all.size() > 0
                && all.getObject(0) instanceof COSName name ? name : null;
        if (!COSName.FLATE_DECODE.equals(first)) {
            return null;
        }
        Inflater inflater = new Inflater();
        byte[] in = new byte[1 << 13];
        byte[] out = new byte[1 << 16];
        try (InputStream raw = stream.createRawInputStream()) {
            while (!inflater.finished()) {
                file.checkTime();
                int n = inflater.inflate(out);
                if (n == 0 && !inflater.finished()) {
                    int some = inflater.needsInput() ? raw.read(in) : -1;
                    if (some <= 0) {
                        return "ends early";
                    }
                    inflater.setInput(in, 0, some);
                }
            }
            return null;
        } catch (DataFormatException e) {
            return e.getMessage() == null ? "bad data" : e.getMessage();
        } finally {
            inflater.end();
        }
    }
}
