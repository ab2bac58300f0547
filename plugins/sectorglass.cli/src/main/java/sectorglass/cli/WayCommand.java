package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Disk;
import sectorglass.recovery.way.Way;
import sectorglass.recovery.way.WayFinder;
import sectorglass.report.JsonOut;
import sectorglass.report.way.WayJson;
import sectorglass.report.way.WaySheet;

/** The part of {@code explain} that shows the way to a file. */
final class WayCommand {
    private final PrintStream out;
    private final boolean json;
    private final Locale locale;

    WayCommand(PrintStream out, boolean json, Locale locale) {
        this.out = out;
        this.json = json;
        this.locale = locale;
    }

    int run(Disk disk, String image, int wanted, String path, Path sheet) throws CommandException {
        WayFinder finder = new WayFinder(disk, locale);
        Way way = finder.way(volume(finder.volumes(), wanted), path).orElseThrow();
        WaySheet written = new WaySheet(way, image, locale);
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                WayJson.write(to, way);
            }
        } else {
            out.print(written.text());
        }
        if (sheet != null) {
            try {
                written.write(sheet);
            } catch (FileAlreadyExistsException e) {
                throw new CommandException(Status.OUTPUT, sheet + " exists and is not written over.");
            } catch (IOException e) {
                throw new CommandException(Status.OUTPUT, "The sheet could not be written to " + sheet + ": " + e.getMessage() + ".");
            }
        }
        return way.complete() ? Status.DONE : Status.INCOMPLETE;
    }

    private static int volume(List<Integer> volumes, int wanted) throws CommandException {
        if (wanted != 0 && volumes.contains(wanted)) {
            return wanted;
        }
        if (wanted == 0 && volumes.size() == 1) {
            return volumes.get(0);
        }
        throw new CommandException(Status.USE, volumes.isEmpty() ? "No volume of this image has files to which a way can be shown."
                : (wanted == 0 ? "" : "No way can be shown in volume " + wanted + ". ") + "Volumes with ways to files: "
                        + String.join(", ", volumes.stream().map(String::valueOf).toList()) + ". Give one with --volume.");
    }
}
