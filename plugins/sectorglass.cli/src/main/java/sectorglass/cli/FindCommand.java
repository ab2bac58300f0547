package sectorglass.cli;

import java.io.PrintStream;
import java.nio.ByteOrder;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.util.function.LongPredicate;

import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.disk.Disk;
import sectorglass.disk.Partition;
import sectorglass.image.OpenImage;
import sectorglass.recovery.ByteSearch;
import sectorglass.recovery.Needle;
import sectorglass.report.JsonOut;

/** Finds bytes, text or numbers. */
@Command(description = {"Prints where bytes, text or numbers stand. Places that touch unread sectors are never found; how many sectors could not be",
    "looked at is said at the end."})
final class FindCommand extends ImageCommand {

    /** What to look for. */
    static final class Wanted {
        @Option(names = "--hex", required = true, paramLabel = "BYTES", description = "Hex bytes; ? stands for an open half byte: \"55 AA ?? 0?\".")
        String hex;

        @Option(names = "--text", required = true, paramLabel = "TEXT", description = "Text, in the character set of --encoding.")
        String text;

        @Option(names = "--number", required = true, paramLabel = "N", description = "A number of --width bytes; 0x for hex.")
        String number;
    }

    @ArgGroup(multiplicity = "1")
    private Wanted wanted;

    @Option(names = "--encoding", paramLabel = "NAME", description = "Character set of --text: UTF-8 (default), UTF-16LE, ISO-8859-1 …")
    private String encoding = "UTF-8";

    @Option(names = "--width", paramLabel = "BYTES", description = "Width of --number: 1, 2, 4 (default) or 8.")
    private int width = 4;

    @Option(names = "--big-endian", description = "--number has its highest byte first.")
    private boolean bigEndian;

    @Option(names = "--partition", paramLabel = "N", description = "Looks in this partition only.")
    private int partition;

    @Option(names = "--from", paramLabel = "BYTE", description = "First image byte to look at.")
    private long from;

    @Option(names = "--to", paramLabel = "BYTE", description = "Image byte to stop at.")
    private long to = Long.MAX_VALUE;

    @Option(names = "--back", description = "From the end to the beginning.")
    private boolean back;

    @Option(names = "--limit", paramLabel = "N", description = "Stops after so many places (default 10000).")
    private long limit = 10_000;

    FindCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        Needle needle = needle();
        ByteSearch search = range(opened);
        ByteSearch.Result result;
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                find(search, needle, place -> {
                    to.object(() -> to.field("lba", place / opened.sectorSize()).field("firstByte", place)).line();
                    return true;
                });
            }
            return Status.DONE;
        }
        result = find(search, needle, place -> {
            out.println("LBA " + Numbers.grouped(place / opened.sectorSize()) + ", byte " + place % opened.sectorSize() + ", image byte "
                    + Numbers.address(place));
            return true;
        });
        out.println(Numbers.grouped(result.hits()) + (result.hits() == 1 ? " place" : " places")
                + (result.ended() ? "" : ", stopped at the limit")
                + (result.unreadSectors() == 0 ? "" : "; " + Numbers.grouped(result.unreadSectors()) + (result.unreadSectors() == 1 ? " sector was" : " sectors were") + " not read and could not be looked at"));
        return Status.DONE;
    }

    private ByteSearch.Result find(ByteSearch search, Needle needle, LongPredicate show) {
        long[] count = {0};
        LongPredicate limited = place -> show.test(place) && ++count[0] < limit;
        return back ? search.backward(needle, limited, progress()) : search.forward(needle, limited, progress());
    }

    private ByteSearch range(OpenImage opened) throws CommandException {
        long first = Math.max(0, from);
        long end = Math.min(to, opened.bytes());
        if (partition != 0) {
            Disk disk = survey(opened);
            Partition chosen = disk.partitions().stream().filter(p -> p.number() == partition).findFirst()
                    .orElseThrow(() -> new CommandException(Status.USE, "There is no partition " + partition + ". \"sectorglass layout\" lists them."));
            if (!chosen.placed()) {
                throw new CommandException(Status.USE, "Volume " + partition + " stands in several places of the disks of its set, so it has no range to look through.");
            }
            first = Math.max(first, Math.min(chosen.range().first(), opened.sectors()) * opened.sectorSize());
            end = Math.min(end, Math.min(chosen.range().end(), opened.sectors()) * opened.sectorSize());
        }
        if (first >= end) {
            throw new CommandException(Status.USE, "There is nothing to look at between byte " + first + " and byte " + end + ".");
        }
        return new ByteSearch(opened, first, end);
    }

    private Needle needle() throws CommandException {
        try {
            if (wanted.hex != null) {
                return Needle.ofHex(wanted.hex);
            }
            if (wanted.text != null) {
                return Needle.ofText(wanted.text, Charset.forName(encoding));
            }
            return Needle.ofNumber(Long.decode(wanted.number), width, bigEndian ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN);
        } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
            throw new CommandException(Status.USE, "There is no character set \"" + encoding + "\" here.");
        } catch (NumberFormatException e) {
            throw new CommandException(Status.USE, "\"" + wanted.number + "\" is no number.");
        } catch (IllegalArgumentException e) {
            throw new CommandException(Status.USE, e.getMessage());
        }
    }
}
