package sectorglass.practice.disk;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.image.Texts;

/**
 * The answer form of a disk, a JSON file that is filled in with any editor: {@code docs/files.md}.
 *
 * @param code of the disk
 * @param name who answers; may be empty
 * @param count how many faults there are, or null where it was left open
 * @param answers those that were filled in
 */
public record AnswerForm(String code, String name, Integer count, List<Answer> answers) {
    private static final String KIND = "practice answer";
    private static final int LINES = 5;
    private static final int MOST_ANSWERS = 1000;

    /** Writes an empty form; an older one of that name is replaced. */
    public static void writeEmpty(Path file, DiskKey disk, Locale locale) throws IOException {
        Map<String, Object> line = PracticeJson.ordered("lba", null, "byte", null, "check", "", "value", "");
        PracticeJson.write(file, PracticeJson.ordered("sectorglass", KIND, "version", PracticeJson.VERSION, "disk", disk.code(),
                "help", List.of(new Texts(AnswerForm.class, locale).of("form.help").split("\n")), "name", "", "faults", null,
                "found", Collections.nCopies(LINES, line), "choices", disk.choices()));
    }

    /** Writes a form that is filled in: for tests, and for whoever answers by another way than an editor. */
    public void write(Path file) throws IOException {
        PracticeJson.write(file, PracticeJson.ordered("sectorglass", KIND, "version", PracticeJson.VERSION, "disk", code, "name", name, "faults", count,
                "found", answers.stream().map(a -> PracticeJson.ordered("lba", a.lba(), "byte", a.inSector(), "check", a.check(),
                        "value", a.value() == null ? "" : HexFormat.ofDelimiter(" ").withUpperCase().formatHex(a.value()))).toList()));
    }

    /**
     * Reads a form.
     *
     * @throws PracticeException if it cannot be understood; names the answer and the field
     */
    public static AnswerForm read(Path file) throws IOException {
        JsonNode root = PracticeJson.read(file, KIND);
        List<Answer> answers = new ArrayList<>();
        int number = 0;
        for (JsonNode found : root.path("found")) {
            if (++number > MOST_ANSWERS) {
                throw new PracticeException(file + " names more than " + MOST_ANSWERS + " faults.");
            }
            String where = file + ", answer " + number;
            Long lba = number(found.path("lba"), where + ", lba");
            Long inSector = number(found.path("byte"), where + ", byte");
            if (inSector != null && inSector > 0xFFFF) {
                throw new PracticeException(where + ": byte " + inSector + " lies in no sector.");
            }
            Answer answer = new Answer(lba, inSector == null ? null : inSector.intValue(), found.path("check").asText("").strip(),
                    value(found.path("value"), where + ", value"));
            if (!answer.empty()) {
                answers.add(answer);
            }
        }
        Long count = number(root.path("faults"), file + ", faults");
        return new AnswerForm(root.path("disk").asText().strip(), root.path("name").asText(""), count == null ? null : (int) Math.min(count, Integer.MAX_VALUE),
                List.copyOf(answers));
    }

    /** A number, also as text, also hexadecimal with 0x; null where left open. */
    private static Long number(JsonNode node, String where) throws PracticeException {
        if (node.isMissingNode() || node.isNull() || node.isTextual() && node.asText().isBlank()) {
            return null;
        }
        try {
            if (!node.isTextual() && !node.isIntegralNumber()) {
                throw new NumberFormatException();
            }
            String text = node.asText().strip().replace(" ", "");
            long number = text.matches("0[xX].+") ? Long.parseLong(text.substring(2), 16) : Long.parseLong(text);
            if (number < 0) {
                throw new NumberFormatException();
            }
            return number;
        } catch (NumberFormatException e) {
            throw new PracticeException(where + ": \"" + node.asText() + "\" is no number. Give a decimal number, or 0x and a hexadecimal one.");
        }
    }

    private static byte[] value(JsonNode node, String where) throws PracticeException {
        String text = node.asText("").replaceAll("[\\s,]+", "");
        if (text.isEmpty() || node.isNull()) {
            return null;
        }
        try {
            return HexFormat.of().parseHex(text);
        } catch (IllegalArgumentException e) {
            throw new PracticeException(where + ": \"" + node.asText() + "\" are no bytes. Give two hexadecimal digits for each byte, in the order in which they stand on the disk.");
        }
    }
}
