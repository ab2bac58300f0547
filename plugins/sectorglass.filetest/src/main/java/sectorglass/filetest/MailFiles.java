package sectorglass.filetest;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import org.osgi.service.component.annotations.Component;
import sectorglass.recovery.opening.FileTest;
import sectorglass.recovery.opening.FileType;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * Mail: single messages and stores of one message after the other (RFC 5322, section 2.2; RFC 4155): headers are headers, nothing holds bytes that
 * mail does not hold, encoded parts hold only their letters and end as they should (RFC 2045, section 6.8; RFC 2046, section 5.1.1).
 */
@Component(service = FileTest.class)
@ServiceProvider(value = FileTest.class, resolution = Resolution.OPTIONAL)
public final class MailFiles implements FileTest {
    private static final Pattern FIELD = Pattern.compile("[!-9;-~]+:.*", Pattern.DOTALL);
    private static final Pattern FROM = Pattern.compile("From \\S+ .*\\d{4}.*");
    private static final Pattern BASE64 = Pattern.compile("[A-Za-z0-9+/]*={0,2}\\s*");
    private static final Pattern BEGINS = Pattern.compile("(?i)(Return-Path|Received|From|To|Subject|Date|Message-ID|MIME-Version|Delivered-To|X-[A-Za-z0-9-]+|Reply-To"
            + "|DKIM-Signature|ARC-Seal):.*", Pattern.DOTALL);
    private static final int LONGEST_LINE = 1 << 20;

    private static final FileType MBOX = new FileType("mbox", "mbox", List.of("mbox", "mbx"),
            head -> FROM.matcher(firstLine(head)).matches());
    private static final FileType MESSAGE = new FileType("message", "mail message", List.of("eml"),
            head -> BEGINS.matcher(firstLine(head)).matches() && new String(head, StandardCharsets.ISO_8859_1).matches("(?is).*\\n(From|Subject|Date|Message-ID|To):.*"));

    private static String firstLine(byte[] head) {
        String text = new String(head, 0, Math.min(512, head.length), StandardCharsets.ISO_8859_1);
        return text.split("\r?\n", 2)[0];
    }

    @Override
    public List<FileType> types() {
        return List.of(MBOX, MESSAGE);
    }

    @Override
    public int rank() {
        return 50;
    }

    @Override
    public TestResult test(FileType type, TestedFile file) throws IOException {
        State state = new State(type == MBOX);
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(file.stream(), StandardCharsets.ISO_8859_1))) {
            StringBuilder line = new StringBuilder();
            for (int c = lines.read(); c >= 0; c = lines.read()) {
                state.at++;
                if (c == 0 || c < ' ' && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != 0x1B && c != '\b') {
                    return TestResult.damaged("test.control", state.at - 1);
                }
                if (c == '\n') {
                    String wrong = state.line(line.toString());
                    if (wrong != null) {
                        return TestResult.damaged("test.form", state.at - line.length() - 1, wrong);
                    }
                    line.setLength(0);
                } else if (line.length() < LONGEST_LINE) {
                    line.append((char) c);
                }
            }
            if (!line.isEmpty()) {
                state.line(line.toString());
            }
        }
        return state.boundary != null ? TestResult.damaged("test.end") : TestResult.sound();
    }

    /** Where in a message the line stands. */
    private static final class State {
        private final boolean store;
        private long at;
        private boolean header = true;
        private boolean part;
        private boolean afterBlank = true;
        private boolean base64;
        private int length;
        private String boundary;
        private String field = "";

        State(boolean store) {
            this.store = store;
        }

        /** What is wrong with the line, or null. */
        String line(String raw) {
            String line = raw.endsWith("\r") ? raw.substring(0, raw.length() - 1) : raw;
            if (store && afterBlank && FROM.matcher(line).matches()) {
                if (boundary != null) {
                    return "message without its last boundary";
                }
                header = true;
                part = false;
                base64 = false;
                field = "";
                afterBlank = false;
                return null;
            }
            afterBlank = line.isEmpty();
            if (header) {
                return header(line);
            }
            if (boundary != null && line.startsWith("--" + boundary)) {
                boolean last = line.startsWith("--" + boundary + "--");
                boundary = last ? null : boundary;
                header = !last;
                part = !last;
                base64 = false;
                return null;
            }
            if (base64 && !line.isBlank()) {
                boolean fits = BASE64.matcher(line).matches() && line.strip().length() % 4 == 0 && (length == 0 || line.strip().length() <= length);
                length = length == 0 ? line.strip().length() : length;
                return fits ? null : "base64";
            }
            return null;
        }

        private String header(String line) {
            if (line.isEmpty()) {
                header = false;
                length = 0;
                return null;
            }
            if (line.startsWith(" ") || line.startsWith("\t")) {
                field += line;
            } else if (FIELD.matcher(line).matches() || line.startsWith(">From ")) {
                field = line;
            } else {
                return "no header";
            }
            String lower = field.toLowerCase(Locale.ROOT);
            int named = lower.indexOf("boundary=");
            if (lower.startsWith("content-type:") && named > 0 && !part) {
                String value = field.substring(named + 9).strip();
                boundary = value.startsWith("\"") ? value.substring(1, Math.max(1, value.indexOf('"', 1))) : value.split("[;\\s]", 2)[0];
                boundary = boundary.isEmpty() ? null : boundary;
            }
            if (lower.startsWith("content-transfer-encoding:")) {
                base64 = lower.contains("base64");
            }
            return null;
        }
    }
}
