package sectorglass.partition.gpt;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges the entries of one array. What the backup shares with the primary is folded under the primary's finding. */
final class EntryChecks {
    /** Entries judged of one array; a damaged count or a garbage array must not flood the findings. */
    private static final int MAX_JUDGED = 4096;
    private static final long RESERVED_BITS = 0x0000_FFFF_FFFF_FFF8L;

    private final GptHeader header;
    private final GptEntries array;
    private final GptEntries primary;
    private final SectorImage image;
    private final Checks out;
    private Mark doubt;

    EntryChecks(GptDisk disk, GptHeader header, SectorImage image, Checks all) {
        this.header = header;
        this.array = header.entries();
        this.image = image;
        this.out = all.in(array.where());
        GptHeader first = disk.primary();
        this.primary = first != null && first != header && first.found() && first.entries().readable() ? first.entries() : null;
    }

    /**
     * @param cause a checksum that does not hold, or null
     * @param place what explains that ranges reach beyond the end, or null
     */
    void run(Mark cause, Mark place) {
        doubt = cause;
        List<GptEntry> all = array.list(image);
        all = all.subList(0, Math.min(all.size(), MAX_JUDGED));
        List<GptEntry> used = all.stream().filter(GptEntry::used).toList();
        Map<Integer, GptEntry> overlaps = overlaps(used);
        Map<String, Integer> seen = new HashMap<>();
        Map<Integer, Mark> ranges = new HashMap<>();
        for (GptEntry entry : used) {
            Mark range = report("range", entry, GptEntry.FIRST, 16, range(entry), place);
            ranges.put(entry.index(), range);
            GptEntry other = overlaps.get(entry.index());
            report("overlap", entry, GptEntry.FIRST, 16, other == null ? Outcome.passed()
                    : Outcome.failed(text(entry.range()), "clear of " + text(other.range())).with("other", other.index()), cause(range, other, ranges));
            report("unique-guid", entry, GptEntry.UNIQUE, 16, unique(entry, seen), null);
            long attributes = entry.attributes();
            report("attributes", entry, GptEntry.ATTRIBUTES, 8, Outcome.test((attributes & RESERVED_BITS) == 0,
                    String.format(Locale.ROOT, "%016X", attributes), "bits 3 to 47 zero"), null);
            report("name", entry, GptEntry.NAME, 72, name(entry.nameUnits()), null);
            reserved(entry);
        }
        for (GptEntry entry : all) {
            if (!entry.used()) {
                report("erased", entry, 0, entry.bytes().length(), Outcome.failed("type zero, other bytes not", "all zero"), null);
            }
        }
    }

    /** An overlap follows from a range that fails by itself, of either entry. */
    private static Mark cause(Mark own, GptEntry other, Map<Integer, Mark> ranges) {
        return own.failed() || other == null ? own : ranges.get(other.index());
    }

    private Mark report(String rule, GptEntry entry, int at, int length, Outcome outcome, Mark cause) {
        String id = "gpt.entry." + rule;
        Outcome full = outcome.with("entry", entry.index()).because(doubt != null ? doubt : cause);
        if (doubt == null && primary != null) {
            full.follows(id, primary.firstByte() + (entry.index() - 1) * primary.size() + at);
        }
        return out.report(id, new ByteRange(entry.bytes().start() + at, length), full);
    }

    private Outcome range(GptEntry entry) {
        String stored = HeaderChecks.unsigned(entry.first()) + " to " + HeaderChecks.unsigned(entry.last());
        if (!entry.ordered()) {
            return Outcome.failed(stored, "first not after last");
        }
        boolean usable = Long.compareUnsigned(entry.first(), header.firstUsable()) >= 0
                && Long.compareUnsigned(entry.last(), header.lastUsable()) <= 0;
        if (!usable) {
            return Outcome.failed(stored, "within " + HeaderChecks.unsigned(header.firstUsable()) + " to "
                    + HeaderChecks.unsigned(header.lastUsable()));
        }
        return Outcome.test(Long.compareUnsigned(entry.last(), image.sectors()) < 0, stored, "at most " + (image.sectors() - 1));
    }

    /** For each entry that overlaps one with a lower number that one; a pair is told once. */
    private static Map<Integer, GptEntry> overlaps(List<GptEntry> used) {
        List<GptEntry> sorted = new ArrayList<>(used.stream().filter(e -> e.range().count() > 0).toList());
        sorted.sort(Comparator.comparing(GptEntry::range).thenComparing(GptEntry::index));
        Map<Integer, GptEntry> found = new HashMap<>();
        GptEntry reaching = null;
        for (GptEntry entry : sorted) {
            if (reaching != null && reaching.range().overlaps(entry.range())) {
                boolean later = entry.index() > reaching.index();
                found.putIfAbsent(later ? entry.index() : reaching.index(), later ? reaching : entry);
            }
            if (reaching == null || entry.range().end() > reaching.range().end()) {
                reaching = entry;
            }
        }
        return found;
    }

    private static Outcome unique(GptEntry entry, Map<String, Integer> seen) {
        String guid = entry.unique();
        if (guid.equals(Guid.ZERO)) {
            return Outcome.failed(guid, "any other GUID").with("twin", null);
        }
        Integer twin = seen.putIfAbsent(guid, entry.index());
        return Outcome.test(twin == null, guid + (twin == null ? "" : ", as in entry " + twin), "a GUID of its own").with("twin", twin);
    }

    private static Outcome name(String units) {
        int end = units.indexOf(0);
        for (int i = 0; i < (end < 0 ? units.length() : end); i++) {
            char c = units.charAt(i);
            boolean pair = Character.isHighSurrogate(c) && i + 1 < units.length() && Character.isLowSurrogate(units.charAt(i + 1));
            if (pair) {
                i++;
            } else if (Character.isSurrogate(c)) {
                return Outcome.failed(String.format(Locale.ROOT, "unpaired code unit %04X", (int) c), "pairs of surrogates");
            }
        }
        for (int i = Math.max(0, end); end >= 0 && i < units.length(); i++) {
            if (units.charAt(i) != 0) {
                return Outcome.failed("bytes after the end of the name", "zeros");
            }
        }
        return Outcome.passed();
    }

    private void reserved(GptEntry entry) {
        int length = entry.bytes().length() - GptEntry.FIELDS;
        if (length > 0) {
            report("reserved", entry, GptEntry.FIELDS, length,
                    Outcome.test(entry.bytes().filled(GptEntry.FIELDS, length, 0), "bytes after 128", "zeros"), null);
        }
    }

    private static String text(SectorRange range) {
        return "sectors " + range.first() + " to " + range.last();
    }
}
