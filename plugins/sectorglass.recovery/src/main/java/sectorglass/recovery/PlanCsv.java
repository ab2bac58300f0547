package sectorglass.recovery;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

import sectorglass.image.SectorRange;

/** A read plan as CSV, one line for each range: {@code stage,kind,volume,first_lba,sectors}. */
public final class PlanCsv {

    private PlanCsv() {
    }

    /**
     * Writes a new file.
     *
     * @return the file
     * @throws java.nio.file.FileAlreadyExistsException if there is such a file: it is never written over
     * @throws IOException if the file cannot be written
     */
    public static Path write(ReadPlan plan, Path file) throws IOException {
        try (BufferedWriter lines = Files.newBufferedWriter(file, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            lines.write("stage,kind,volume,first_lba,sectors\n");
            int number = 0;
            for (ReadPlan.Stage stage : plan.stages()) {
                number++;
                for (SectorRange run : stage.ranges()) {
                    lines.write(number + ",\"" + stage.kind().words() + "\"," + (stage.volume() == null ? "" : stage.volume()) + "," + run.first()
                            + "," + run.count() + "\n");
                }
            }
        }
        return file;
    }
}
