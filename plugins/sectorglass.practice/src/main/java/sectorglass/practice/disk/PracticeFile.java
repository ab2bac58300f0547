package sectorglass.practice.disk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * The file beside a practice image that says what it is: the image's name with {@value #ENDING} in place of its ending. A window that finds it keeps
 * findings and explanations closed where it says that this is an exam.
 *
 * @param code of the disk
 * @param level 1 to 5
 * @param exam whether findings and explanations stay closed
 * @param form name of the answer form in the same folder
 * @param sheet name of the task sheet (HTML) in the same folder
 */
public record PracticeFile(String code, int level, boolean exam, String form, String sheet) {
    private static final String KIND = "practice disk";
    private static final String ENDING = ".practice.json";

    /** The path of the file that belongs to an image. */
    public static Path of(Path image) {
        String name = image.getFileName().toString();
        int dot = name.lastIndexOf('.');
        return image.resolveSibling((dot > 0 ? name.substring(0, dot) : name) + ENDING);
    }

    /** What the file beside an image says; empty where there is none, or where it cannot be read. */
    public static Optional<PracticeFile> beside(Path image) {
        Path file = of(image);
        if (!Files.isRegularFile(file)) {
            return Optional.empty();
        }
        try {
            JsonNode root = PracticeJson.read(file, KIND);
            return Optional.of(new PracticeFile(root.path("disk").asText(), root.path("level").asInt(), root.path("exam").asBoolean(), root.path("form").asText(),
                    root.path("sheet").asText()));
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /** Writes the file beside an image; an older one is replaced. */
    public void write(Path image) throws IOException {
        PracticeJson.write(of(image), PracticeJson.ordered("sectorglass", KIND, "version", PracticeJson.VERSION, "disk", code, "level", level, "exam", exam,
                "image", image.getFileName().toString(), "form", form, "sheet", sheet));
    }
}
