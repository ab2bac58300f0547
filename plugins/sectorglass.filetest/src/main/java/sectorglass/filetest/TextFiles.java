package sectorglass.filetest;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * Text: valid in its encoding from the first byte to the last and without characters that no text holds (The Unicode Standard, section 3.9, for
 * UTF-8 and UTF-16). Text in an encoding of one byte per character has nothing that could be invalid but such characters.
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class TextFiles implements FileTest {
    private static final int PIECE = 1 << 16;
    private static final List<String> ENDINGS = List.of("txt", "md", "csv", "xml", "json", "html", "htm", "css", "js", "ini", "tex", "vcf", "ics", "srt", "svg",
            "eml", "mbox", "rtf", "bat", "cmd", "sh", "py", "ps1");
    private static final FileType UTF16 = new FileType("text-utf-16", "text in UTF-16", ENDINGS,
            head -> FileType.has(head, 0, "\u00FF\u00FE") || FileType.has(head, 0, "\u00FE\u00FF"));
    private static final FileType TEXT = new FileType("text", "text", ENDINGS, head -> plain(head, head.length) < 0);

    @Override
    public List<FileType> types() {
        return List.of(UTF16, TEXT);
    }

    @Override
    public int rank() {
        return 100;
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        if (type == UTF16) {
            return decode(file, file.big(0, 1) == 0xFF ? StandardCharsets.UTF_16LE : StandardCharsets.UTF_16BE);
        }
        TestResult utf8 = decode(file, StandardCharsets.UTF_8);
        if (utf8.answer() != TestResult.Answer.DAMAGED || !utf8.reason().equals("test.encoding")) {
            return utf8;
        }
        return decode(file, StandardCharsets.ISO_8859_1);
    }

    private static TestResult decode(TestedFile file, Charset charset) throws IOException {
        CharsetDecoder decoder = charset.newDecoder().onMalformedInput(CodingErrorAction.REPORT).onUnmappableCharacter(CodingErrorAction.REPORT);
        byte[] bytes = new byte[PIECE + 8];
        CharBuffer chars = CharBuffer.allocate(PIECE + 8);
        int kept = 0;
        for (long at = 0; at < file.bytes();) {
            int some = (int) Math.min(PIECE, file.bytes() - at);
            file.read(at, bytes, kept, some);
            ByteBuffer in = ByteBuffer.wrap(bytes, 0, kept + some);
            CoderResult result = decoder.decode(in, chars.clear(), at + some == file.bytes());
            if (result.isError()) {
                return TestResult.damaged("test.encoding", at - kept + in.position(), charset.name());
            }
            for (int i = 0; i < chars.position(); i++) {
                if (control(chars.get(i))) {
                    return TestResult.damaged("test.control", at - kept + (charset.name().startsWith("UTF-16") ? 2L * i : i));
                }
            }
            kept = in.remaining();
            System.arraycopy(bytes, in.position(), bytes, 0, kept);
            at += some;
        }
        return TestResult.sound();
    }

    private static boolean control(char c) {
        return c < 0x20 && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != 0x1A && c != 0x1B || c == 0x7F || c == 0xFFFF;
    }

    /** Index of the first byte that no text holds, or -1. */
    static int plain(byte[] bytes, int length) {
        for (int i = 0; i < length; i++) {
            if (bytes[i] >= 0 && control((char) bytes[i])) {
                return i;
            }
        }
        return -1;
    }
}
