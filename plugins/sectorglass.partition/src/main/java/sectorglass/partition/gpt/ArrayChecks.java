package sectorglass.partition.gpt;

import java.util.List;
import java.util.Map;
import java.util.function.Supplier;

import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;

/** Judges what a header says of its array, and the array's checksum. */
final class ArrayChecks {
    private final GptDisk disk;
    private final GptHeader header;
    private final boolean leftover;
    private final SectorImage image;
    private final Checks out;

    ArrayChecks(GptDisk disk, GptHeader header, boolean leftover, SectorImage image, Checks out) {
        this.disk = disk;
        this.header = header;
        this.leftover = leftover;
        this.image = image;
        this.out = out;
    }

    /**
     * @param root a header checksum that does not hold, or null
     * @param place what explains that the array is not where the header says, or null
     */
    void run(Mark root, Mark place) {
        Mark count = check("count", GptHeader.ENTRY_COUNT, 4, () -> Outcome.test(header.entries().count() > 0,
                header.entries().count(), "1 or more").because(root));
        Mark size = check("size", GptHeader.ENTRY_SIZE, 4, () -> Outcome.test(header.entries().sizeLegal(),
                header.entries().size(), "128 times a power of two").because(root));
        Mark stands = null;
        if (!leftover) {
            stands = check("place", GptHeader.ENTRY_LBA, 8, () -> count.failed() || size.failed()
                    ? Outcome.undecided("the size of the array is not known").because(count.failed() ? count : size)
                    : place().because(place));
        }
        Mark cause = root != null ? root : count.failed() ? count : size.failed() ? size : stands != null && stands.failed() ? stands : null;
        Mark crc = check("crc32", GptHeader.ENTRIES_CRC, 4, () -> crc().because(cause));
        if (header.read() && header.entries().readable() && !leftover) {
            Mark doubt = crc.failed() ? crc : root;
            new EntryChecks(disk, header, image, out).run(doubt, place);
        }
    }

    private Mark check(String rule, int at, int length, Supplier<Outcome> test) {
        return out.check("gpt.entries." + rule, header.where(at, length), () -> test.get()
                .with("copy", Phrase.of(header == disk.primary() ? "copy.primary" : "copy.backup")));
    }

    private Outcome place() {
        GptEntries array = header.entries();
        boolean primary = header == disk.primary();
        long from = primary ? 2 : header.lastUsable() + 1;
        long end = primary ? header.firstUsable() : header.lba();
        long last = array.lba() + array.sectors() - 1;
        String stored = HeaderChecks.unsigned(array.lba()) + " to " + HeaderChecks.unsigned(last);
        boolean fits = Long.compareUnsigned(array.lba(), from) >= 0 && Long.compareUnsigned(array.lba(), last) <= 0
                && Long.compareUnsigned(last, end) < 0;
        return Outcome.test(fits, stored, "within " + HeaderChecks.unsigned(from) + " to " + HeaderChecks.unsigned(end - 1));
    }

    private Outcome crc() {
        GptEntries array = header.entries();
        if (!array.readable()) {
            return Outcome.undecided("the array has no believable size: " + array.count() + " entries of " + array.size() + " bytes");
        }
        long computed = array.crc(image);
        return Outcome.test(computed == header.storedEntriesCrc(), HeaderChecks.hex(header.storedEntriesCrc()), HeaderChecks.hex(computed))
                .with("difference", difference(array));
    }

    /** The first entry that differs from the other copy's array, where that one holds. */
    private Phrase difference(GptEntries array) {
        GptHeader other = disk.other(header);
        if (other == null || !other.good() || !other.entries().readable() || other.entries().count() != array.count() || other.entries().size() != array.size()) {
            return Phrase.of("difference.unknown");
        }
        try {
            if (other.entries().crc(image) != other.storedEntriesCrc()) {
                return Phrase.of("difference.unknown");
            }
        } catch (UnreadException e) {
            return Phrase.of("difference.unknown");
        }
        List<GptEntry> here = array.list(image);
        List<GptEntry> there = other.entries().list(image);
        for (int i = 0; i < Math.max(here.size(), there.size()); i++) {
            if (i >= here.size() || i >= there.size() || here.get(i).index() != there.get(i).index() || !same(here.get(i), there.get(i))) {
                int entry = i >= here.size() ? there.get(i).index() : i >= there.size() ? here.get(i).index()
                        : Math.min(here.get(i).index(), there.get(i).index());
                return new Phrase("difference.entry", Map.of("entry", entry));
            }
        }
        return Phrase.of("difference.none");
    }

    private static boolean same(GptEntry a, GptEntry b) {
        return java.util.Arrays.equals(a.bytes().raw(0, a.bytes().length()), b.bytes().raw(0, b.bytes().length()));
    }
}
