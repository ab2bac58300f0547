package sectorglass.workbench.recovery.files;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.util.List;

import sectorglass.disk.Files;
import sectorglass.image.Progress;
import sectorglass.recovery.ExtractionRun;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.Words;

/** Extracts files with their manifest, and says what was done. */
final class Extracting {

    private Extracting() {
    }

    /** Extracts entries; gives what was done, a sentence. */
    static String run(Files from, List<Integer> wanted, ExtractionRun.Wish wish, Progress progress) throws IOException {
        try {
            ExtractionRun done = ExtractionRun.run(from, wanted, wish, progress, so -> progress.at(Words.of("files.extracted", Numbers.grouped(so.files())), 0, 0));
            return Words.of("files.done", Numbers.grouped(done.files()), Numbers.size(done.bytes()), Numbers.grouped(done.incomplete()), done.manifest());
        } catch (FileAlreadyExistsException e) {
            throw new IOException(Words.of("files.exists", e.getMessage()), e);
        }
    }
}
