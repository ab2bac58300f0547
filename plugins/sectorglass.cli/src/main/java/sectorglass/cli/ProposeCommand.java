package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.disk.Repair;
import sectorglass.image.OpenImage;
import sectorglass.image.SafeText;
import sectorglass.recovery.propose.HandEdit;
import sectorglass.recovery.propose.Proposal;
import sectorglass.recovery.propose.ProposalExport;
import sectorglass.recovery.propose.Proposals;
import sectorglass.recovery.propose.SearchSites;
import sectorglass.recovery.propose.Sites;
import sectorglass.recovery.propose.TableTranslator;
import sectorglass.recovery.propose.Turn;

/** Proposes corrections and exports them; the image is never written. */
@Command(description = {"Proposes corrections: what should stand where a structure is damaged or lost, why, what speaks against it, and which checks",
    "turn, found by running them over an overlay. Nothing is written to the image; --to exports sectors, proposals and a corrected copy."})
final class ProposeCommand extends ImageCommand {

    @Option(names = "--to", paramLabel = "DIR", description = "Writes corrected sectors, a proposal file each, and for the best one a corrected copy of the image.")
    private Path to;

    @Option(names = "--no-copy", description = "With --to: no corrected copy of the image.")
    private boolean noCopy;

    @Option(names = "--search", description = {"Searches the whole image for volumes first. Without it this is done only where no map tells where they are, or the job",
        "given by --job holds the result of a search already."})
    private boolean search;

    @Option(names = "--set", paramLabel = "BYTE=HEX", description = {"Bytes by hand, at an image byte (decimal, or 0x…): the proposal holds them and the checksums",
        "that depend on them. May be given several times. Proposals of the product's own are then left out."})
    private List<String> set = List.of();

    @Option(names = "--translate-to", paramLabel = "N", description = "Proposes the partition table and boot sectors for sectors of N bytes, 512 or 4096, or says why not.")
    private int translate;

    ProposeCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        List<Proposal> proposals = proposals(opened);
        if (json) {
            new ProposalJson(out).write(proposals, opened);
        } else {
            new ProposalText(out, opened.sectorSize()).print(proposals, quiet);
        }
        if (to != null && !proposals.isEmpty()) {
            export(proposals, opened);
        }
        return Status.DONE;
    }

    private List<Proposal> proposals(OpenImage opened) throws CommandException {
        if (translate != 0) {
            return translated(opened);
        }
        Sites sites = set.isEmpty() ? SearchSites.of(opened, source.searched(), search || SearchSites.wanted(survey(opened)), progress())
                : new Sites(List.of());
        Proposals engine = new Proposals(book(), sites::volumes);
        if (set.isEmpty()) {
            return engine.of(opened, progress());
        }
        List<Repair.Change> changes = new ArrayList<>();
        for (String one : set) {
            changes.add(change(one, opened));
        }
        Repair repair = HandEdit.repair(opened, changes, locale());
        return List.of(engine.judged(opened, List.of(repair), progress()));
    }

    private List<Proposal> translated(OpenImage opened) throws CommandException {
        if (translate != 512 && translate != 4096) {
            throw new CommandException(Status.USE, "--translate-to " + translate + " is not 512 or 4096.");
        }
        TableTranslator.Result result = new TableTranslator(book()).translate(opened, translate, progress());
        if (result.proposal() == null) {
            result.reasons().forEach(reason -> err.println("Not possible. " + SafeText.of(reason)));
            return List.of();
        }
        return List.of(result.proposal());
    }

    private Repair.Change change(String text, OpenImage opened) throws CommandException {
        String[] parts = text.split("=", 2);
        try {
            long at = Long.decode(parts[0]);
            byte[] bytes = HexFormat.of().parseHex(parts[1].replace(" ", ""));
            if (at >= 0 && bytes.length > 0 && at <= opened.bytes() - bytes.length) {
                return new Repair.Change(at, bytes, HandEdit.why(locale()));
            }
        } catch (IllegalArgumentException | ArrayIndexOutOfBoundsException e) {
            throw new CommandException(Status.USE, "--set " + SafeText.of(text) + " is not BYTE=HEX, for instance 0x1FE=55AA.");
        }
        throw new CommandException(Status.USE, "--set " + SafeText.of(text) + " does not lie in the image.");
    }

    private void export(List<Proposal> proposals, OpenImage opened) throws CommandException {
        try {
            ProposalExport.Written written = new ProposalExport(to, opened).write(proposals, !noCopy, progress());
            if (!quiet && !json) {
                out.println(written.proposals().size() + " proposal files and " + written.sectors().size() + " files of sectors written to "
                        + to + (written.copy() == null ? "" : "; corrected copy " + written.copy()));
            }
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, e.getMessage() + " exists already and is never written over. Give another folder.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The proposals could not be written: " + e.getMessage() + ". Free the cause and run again into another folder.");
        }
    }

    /** A turn in one line, for text. */
    static String line(Turn turn, int sectorSize) {
        return turn.check() + " at LBA " + Numbers.grouped(turn.where().start() / sectorSize) + ": "
                + (turn.from() == null ? "not there" : turn.from().word()) + " → " + (turn.to() == null ? "does not apply" : turn.to().word());
    }
}
