package sectorglass.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

import sectorglass.recovery.outcome.WantedList;

/** The wanted list that an option names. */
final class WantedOption {

    private WantedOption() {
    }

    /** The list; an empty one where no file is named. */
    static WantedList load(Path file) throws CommandException {
        try {
            return file == null ? new WantedList(List.of()) : WantedList.load(file);
        } catch (java.nio.file.NoSuchFileException e) {
            throw new CommandException(Status.USE, "There is no wanted list " + file + ".");
        } catch (IOException e) {
            throw new CommandException(Status.USE, e.getMessage());
        }
    }
}
