package sectorglass.cli;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;

import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.CommandSpec;
import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.Format;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.SpecException;
import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Structure;
import sectorglass.disk.Survey;
import sectorglass.image.OpenImage;
import sectorglass.image.Window;
import sectorglass.report.FieldsJson;
import sectorglass.report.JsonOut;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/** Prints each field of the structure at a place. */
final class ExplainCommand extends ImageCommand {
    /** How many bytes a format chosen by hand may look at. */
    private static final int BY_HAND = 1 << 16;

    private final Said lba = Said.value("--lba", Long.class, "N", "The LBA to explain.");
    private final Said byteAt = Said.value("--at", String.class, "BYTE", "The image byte to explain; 0x for hex.");
    private final Said chosen = Said.value("--format", String.class, "ID", "Decodes by this format instead of the one that fits the place.");
    private final Said wayTo = Said.value("--way", String.class, "PATH", "The way from LBA 0 to a file of a volume, step by step; / for the root folder.");
    private final Said ofVolume = Said.value("--volume", Long.class, "N", "Of --way: number of the volume; not needed where only one has files.");
    private final Said sheet = Said.value("--sheet", Path.class, "FILE",
            "Of --way: writes a worked sheet, too; PDF where the name ends in .pdf, otherwise HTML. The file must not exist.");
    private String format;

    ExplainCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    private final FutureTask<FormatCatalogue> catalogues = new FutureTask<>(ExplainCommand::catalogue);

    /** Most often it is sector 0 that is asked for, and the first spec costs more than the others. */
    @Override
    void prepare() {
        super.prepare();
        Ahead.start(catalogues);
    }

    private static FormatCatalogue catalogue() throws Exception {
        RuleBook.ofProviders(Locale.ENGLISH);
        FormatCatalogue catalogue = FormatCatalogue.ofProviders();
        if (catalogue.find("mbr").isPresent()) {
            catalogue.load("mbr");
        }
        return catalogue;
    }

    @Override
    CommandSpec spec() {
        CommandSpec command = plain("Prints each field at a place: bytes, name, value, meaning.");
        command.addArgGroup(ArgGroupSpec.builder().multiplicity("1").addArg(lba.required()).addArg(byteAt.required()).addArg(wayTo.required()).build());
        chosen.addTo(command);
        ofVolume.addTo(command);
        sheet.addTo(command);
        return command;
    }

    @Override
    int run(OpenImage opened) throws Exception {
        if (wayTo.text() != null) {
            long number = ofVolume.number() == null ? 0 : ofVolume.number();
            return new WayCommand(out, json, locale()).run(survey(opened), image.getFileName().toString(), (int) Math.max(-1, Math.min(number, Integer.MAX_VALUE)),
                    wayTo.text(), sheet.path());
        }
        format = chosen.text();
        long at = place(opened);
        Disk disk = survey(opened);
        FormatCatalogue catalogue = catalogues.get();
        Structure structure = format == null ? disk.structureAt(at).orElse(null) : byHand(catalogue, opened, at);
        FutureTask<Format> loading = structure == null ? null : Ahead.start(new FutureTask<>(() -> load(catalogue, structure.format())));
        long end = structure == null ? at - at % opened.sectorSize() + opened.sectorSize() : structure.range().end();
        Findings findings = Survey.ofProviders().verifyUpTo(end, disk, Level.QUICK, book(), progress());
        Window window;
        FieldNode root = null;
        if (structure == null) {
            long sector = at - at % opened.sectorSize();
            window = opened.window(sector, opened.sectorSize());
        } else {
            window = structure.reader().read(opened);
            root = Decoder.decode(loaded(loading), window, DecodeOptions.DEFAULT.withParams(structure.params()));
        }
        String id = structure == null ? null : structure.format();
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                FieldsJson.write(to, id, at, root, window, findings);
            }
        } else {
            new FieldsText(out, opened.sectorSize()).print(structure, at, root, window, findings);
        }
        return Status.DONE;
    }

    private static Format loaded(FutureTask<Format> loading) throws Exception {
        try {
            return loading.get();
        } catch (ExecutionException e) {
            throw e.getCause() instanceof Exception cause ? cause : e;
        }
    }

    private long place(OpenImage opened) throws CommandException {
        long at;
        if (lba.number() != null) {
            if (lba.number() < 0 || lba.number() > Long.MAX_VALUE / opened.sectorSize()) {
                throw new CommandException(Status.USE, "LBA " + lba.number() + " is no address.");
            }
            at = lba.number() * opened.sectorSize();
        } else {
            try {
                at = Long.decode(byteAt.text());
            } catch (NumberFormatException e) {
                throw new CommandException(Status.USE, "\"" + byteAt.text() + "\" is no byte address: give a decimal number, or 0x and a hex number.");
            }
        }
        if (at < 0 || at >= opened.bytes()) {
            throw new CommandException(Status.USE, "Byte " + at + " lies outside the image, which has " + opened.bytes() + " bytes (LBA 0 to "
                    + (opened.sectors() - 1) + ").");
        }
        return at;
    }

    private Structure byHand(FormatCatalogue catalogue, OpenImage opened, long at) throws CommandException {
        Format known = load(catalogue, format);
        Map<String, Object> params = new HashMap<>();
        for (String param : known.params()) {
            if (!param.equals("sector_size")) {
                throw new CommandException(Status.USE, "The format " + format + " needs the value \"" + param
                        + "\" from the structure that leads to it, so it cannot be chosen by hand.");
            }
            params.put(param, (long) opened.sectorSize());
        }
        int length = (int) Math.min(BY_HAND, opened.bytes() - at);
        return Structure.plain(known.title(), format, at, length, params);
    }

    private Format load(FormatCatalogue catalogue, String id) throws CommandException {
        Optional<?> found = catalogue.find(id);
        if (found.isEmpty()) {
            throw new CommandException(Status.USE, "There is no format \"" + id + "\". \"sectorglass formats\" lists them.");
        }
        try {
            return catalogue.load(id);
        } catch (SpecException e) {
            List<?> problems = e.problems();
            throw new CommandException(Status.FAULT, "The format " + id + " cannot be used: " + problems.get(0));
        }
    }
}
