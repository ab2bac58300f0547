package sectorglass.workbench.recovery.plan;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

import sectorglass.image.SectorRange;
import sectorglass.recovery.ReadPlan;
import sectorglass.workbench.recovery.Words;

/** A read plan as CSV, the same columns as the command line writes: {@code stage,kind,volume,first_lba,sectors}. */
final class PlanCsv {

    private PlanCsv() {
    }

    /** Writes a new file; one that exists is never written over. */
    static Path write(ReadPlan plan, Path file) throws IOException {
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
        } catch (FileAlreadyExistsException e) {
            throw new IOException(Words.of("exists", e.getMessage()), e);
        }
        return file;
    }
}
