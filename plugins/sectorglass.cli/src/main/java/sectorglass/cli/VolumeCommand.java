package sectorglass.cli;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

import picocli.CommandLine.Option;
import sectorglass.disk.Disk;
import sectorglass.disk.Files;
import sectorglass.disk.Partition;
import sectorglass.disk.Volume;
import sectorglass.image.OpenImage;

/** What the commands that look into one volume share. */
abstract class VolumeCommand extends ImageCommand {

    @Option(names = "--volume", paramLabel = "N", description = "Number of the volume, as \"layout\" lists it; not needed where only one has files.")
    private int number;

    VolumeCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    /** The chosen volume. */
    record Chosen(int number, Volume volume, Files files) { }

    final Chosen choose(OpenImage opened) throws CommandException {
        Disk disk = survey(opened);
        List<Chosen> all = new ArrayList<>();
        if (disk.volume() != null) {
            add(all, 1, disk.volume());
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null) {
                add(all, partition.number(), partition.volume());
            }
        }
        if (number != 0) {
            return all.stream().filter(c -> c.number() == number).findFirst().orElseThrow(() -> none(disk, all));
        }
        if (all.size() != 1) {
            throw none(disk, all);
        }
        return all.get(0);
    }

    private static void add(List<Chosen> all, int number, Volume volume) {
        volume.capability(Files.class).ifPresent(files -> all.add(new Chosen(number, volume, files)));
    }

    private CommandException none(Disk disk, List<Chosen> all) {
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
