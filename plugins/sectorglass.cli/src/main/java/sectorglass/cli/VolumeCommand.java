package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;
import java.util.stream.Collectors;

import picocli.CommandLine.Option;
import sectorglass.disk.Disk;
import sectorglass.image.OpenImage;
import sectorglass.recovery.outcome.VolumeFiles;

/** What the commands that look into one volume share. */
abstract class VolumeCommand extends ImageCommand {

    @Option(names = "--volume", paramLabel = "N", description = "Number of the volume, as \"layout\" lists it; not needed where only one has files.")
    private int number;

    VolumeCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    /** The chosen volume; all that have files where none was chosen. */
    final List<VolumeFiles> chooseAll(OpenImage opened) throws CommandException {
        Disk disk = survey(opened);
        List<VolumeFiles> all = VolumeFiles.of(disk);
        return number != 0 ? List.of(choose(disk, all)) : all;
    }

    final VolumeFiles choose(OpenImage opened) throws CommandException {
        Disk disk = survey(opened);
        return choose(disk, VolumeFiles.of(disk));
    }

    private VolumeFiles choose(Disk disk, List<VolumeFiles> all) throws CommandException {
        if (number != 0) {
            return all.stream().filter(c -> c.number() == number).findFirst().orElseThrow(() -> none(disk, all));
        }
        if (all.size() != 1) {
            throw none(disk, all);
        }
        return all.get(0);
    }

    private CommandException none(Disk disk, List<VolumeFiles> all) {
        String has = all.isEmpty() ? "No volume of this image has files that can be listed here."
                : "Volumes with files: " + all.stream().map(c -> c.number() + " (" + c.volume().info().kind() + ")").collect(Collectors.joining(", "))
                        + ". Give one with --volume.";
        if (number == 0) {
            return new CommandException(Status.USE, has);
        }
        boolean known = disk.volume(number).isPresent();
        return new CommandException(Status.USE, (known ? "Volume " + number + " is " + disk.volume(number).get().info().kind()
                + ", whose files cannot be listed here. " : "There is no recognised volume " + number + ". ") + has);
    }
}
