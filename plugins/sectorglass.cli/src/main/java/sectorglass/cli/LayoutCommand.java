package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import sectorglass.disk.Disk;
import sectorglass.disk.FirstLook;
import sectorglass.disk.FirstLooks;
import sectorglass.disk.Level;
import sectorglass.disk.MapVerdict;
import sectorglass.disk.PartEvidence;
import sectorglass.disk.Survey;
import sectorglass.image.OpenImage;
import sectorglass.image.PartOrder;
import sectorglass.report.JsonOut;
import sectorglass.report.LayoutJson;

/** Prints what a disk is. */
@Command(description = "Prints first look, read state, nominal capacity, partition maps, partitions, volumes and likely roles.")
final class LayoutCommand extends ImageCommand {

    @Mixin
    private DriveOptions drive = new DriveOptions();

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
        return Status.DONE;
    }
}
