package sectorglass.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

import picocli.CommandLine.Option;
import sectorglass.disk.DriveDataProvider;
import sectorglass.disk.DriveHealth;
import sectorglass.disk.DriveIdentity;
import sectorglass.image.Providers;
import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.verify.Checks;

/** What a drive says of itself, saved beside the image. Addresses in its findings are bytes of the saved sector. */
final class DriveOptions {

    @Option(names = "--identify", paramLabel = "FILE", description = "The drive's IDENTIFY DEVICE data, 512 bytes.")
    private Path identify;

    @Option(names = "--smart", paramLabel = "FILE", description = "The drive's SMART data, 512 bytes; its thresholds may follow in the same file.")
    private Path smart;

    /** Adds verdicts on the saved sectors. */
    void check(SectorImage image, Checks out) throws CommandException {
        for (DriveDataProvider provider : Providers.all(DriveDataProvider.class)) {
            if (identify != null) {
                provider.checkIdentity(read(identify, 0), image, out);
            }
            if (smart != null) {
                provider.checkHealth(read(smart, 0), thresholds(), out);
            }
        }
    }

    /** Prints what the saved sectors say. */
    void print(PrintStream out) throws CommandException {
        for (DriveDataProvider provider : Providers.all(DriveDataProvider.class)) {
            if (identify != null) {
                identity(provider.identify(read(identify, 0)), out);
            }
            if (smart != null) {
                health(provider.health(read(smart, 0), thresholds()), out);
            }
        }
    }

    private void identity(Optional<DriveIdentity> found, PrintStream out) {
        out.println();
        out.println("What the drive says of itself (" + identify.getFileName() + ")");
        if (found.isEmpty()) {
            out.println("  the file is shorter than " + DriveDataProvider.LENGTH + " bytes");
            return;
        }
        DriveIdentity id = found.get();
        Table table = new Table("ll").row("model", SafeText.of(id.model())).row("serial", SafeText.of(id.serial()))
                .row("firmware", SafeText.of(id.firmware())).row("sectors", Numbers.grouped(id.sectors()))
                .row("sector", id.sectorBytes() + " bytes logical, " + id.physicalBytes() + " bytes physical");
        id.facts().forEach(fact -> table.row(fact.name(), SafeText.of(fact.value())));
        table.print(out, "  ");
    }

    private void health(Optional<DriveHealth> found, PrintStream out) {
        out.println();
        out.println("Health data (" + smart.getFileName() + ")");
        if (found.isEmpty()) {
            out.println("  the file is shorter than " + DriveDataProvider.LENGTH + " bytes");
            return;
        }
        Table table = new Table("rlrrrrl").row("id", "usual meaning", "value", "worst", "threshold", "raw", "");
        for (DriveHealth.Attribute a : found.get().attributes()) {
            table.row(a.id(), a.name(), a.value(), a.worst(), a.threshold() == null ? "not known" : a.threshold(), Numbers.grouped(a.raw()),
                    Boolean.TRUE.equals(a.failing()) ? "at its threshold" : "");
        }
        table.print(out, "  ");
    }

    private Window thresholds() throws CommandException {
        Window second = read(smart, DriveDataProvider.LENGTH);
        return second.length() < DriveDataProvider.LENGTH ? null : second;
    }

    private static Window read(Path file, int skip) throws CommandException {
        try (InputStream in = Files.newInputStream(file)) {
            in.skipNBytes(Math.min(skip, Files.size(file)));
            return Window.ofRead(in.readNBytes(DriveDataProvider.LENGTH), 0, DriveDataProvider.LENGTH);
        } catch (IOException e) {
            throw new CommandException(Status.USE, file + " cannot be read: " + e.getMessage() + ".");
        }
    }
}
