package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import sectorglass.disk.Disk;
import sectorglass.disk.FirstLook;
import sectorglass.disk.FirstLooks;
import sectorglass.disk.Level;
import sectorglass.disk.MapVerdict;
import sectorglass.disk.PartEvidence;
import sectorglass.disk.Survey;
import sectorglass.image.OpenImage;
import sectorglass.image.ImagePart;
import sectorglass.image.PartList;
import sectorglass.image.PartOrder;
import sectorglass.report.JsonOut;
import sectorglass.report.LayoutJson;

/** Prints what a disk is. */
@Command(description = "Prints first look, read state, nominal capacity, partition maps, partitions, volumes and likely roles.")
final class LayoutCommand extends ImageCommand {

    @Mixin
    private DriveOptions drive = new DriveOptions();

    @Option(names = "--parts-to", paramLabel = "FILE",
            description = "Writes the parts of a chunk set as a part list, in the order that structures speak for; never over a file.")
    private Path partsTo;

    LayoutCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        Disk disk = survey(opened);
        List<MapVerdict> verdicts = Survey.ofProviders().judge(disk, book());
        FirstLook look = FirstLooks.of(disk, locale());
        PartOrder order = opened.parts().size() < 2 ? null : PartEvidence.of(opened, disk,
                Survey.ofProviders().verify(disk, Level.QUICK, book(), progress()));
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                LayoutJson.write(to, image.toString(), disk, verdicts, look, order);
            }
        } else {
            new LayoutText(out).print(opened, disk, verdicts, look);
            if (order != null) {
                new PartsText(out).print(order);
            }
            drive.print(out);
        }
        if (partsTo != null) {
            write(opened, order);
        }
        return Status.DONE;
    }

    private void write(OpenImage opened, PartOrder order) throws CommandException {
        List<ImagePart> parts = order == null ? opened.parts() : PartList.inOrder(opened.parts(), order.proposed());
        try {
            PartList.write(partsTo, parts, opened.sectorSize());
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, partsTo + " exists already and is never written over. Give another name.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The part list could not be written to " + partsTo + ": " + e.getMessage());
        }
    }
}
