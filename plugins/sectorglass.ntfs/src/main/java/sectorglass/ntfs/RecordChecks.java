package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Phrase;
import sectorglass.verify.Severity;

/**
 * The rules of single file records. Sources: Linux kernel fs/ntfs3; NTFS-3G mst.c, mft.c, attrib.c, runlist.c. Sees one record after the
 * other and makes objects only for what fails.
 */
final class RecordChecks {
    private static final String SIGNATURE = "ntfs.record.signature";
    private static final String FIXUP = "ntfs.record.fixup";
    private static final String SIZES = "ntfs.record.sizes";
    private static final int FIRST_STRIDE_END = FixedBlock.STRIDE - 2;

    private final FileTable table;
    private final Geometry geometry;
    private final RecordBitmap bitmap;
    private final RecordFacts facts;
    private final Tally tally;
    private final AttributeChecks attributes;
    private final List<SectorRange> unreadFirst = new ArrayList<>();
    private final List<SectorRange> unreadAny = new ArrayList<>();
    private final List<Long> withList = new ArrayList<>();
    private long unusableUnread;
    private boolean numbered;
    private boolean mapped;

    /** @param facts collects what the other checks need, or null for a quick check */
    RecordChecks(FileTable table, RecordBitmap bitmap, RecordFacts facts, Claims claims, Tally tally) {
        this.table = table;
        this.geometry = table.geometry();
        this.bitmap = bitmap;
        this.facts = facts;
        this.tally = tally;
        this.attributes = new AttributeChecks(table, facts, claims, tally);
        tally.applied(SIGNATURE, FIXUP, "ntfs.record.fixup-header", SIZES);
    }

    /** Records with an attribute list. */
    List<Long> withList() {
        return withList;
    }

    /** Sectors of the table that were not read. */
    SectorRanges unread() {
        return SectorRanges.of(unreadAny);
    }

    void record(RecordView view, long address) {
        int number = (int) view.number;
        if (view.fix() == FixedBlock.Fix.UNREAD) {
            unread(view);
            unusableUnread++;
            note(number, RecordFacts.UNREAD, 0);
            return;
        }
        if (view.s32(0) != FixedBlock.FILE) {
            // no record: what follows its first bytes decides nothing
            unsigned(view, number);
            return;
        }
        if (view.anyUnread()) {
            unread(view);
        }
        if (view.fix() == FixedBlock.Fix.BAD_HEADER) {
            fail("ntfs.record.fixup-header", view, FixedBlock.FIXUP_OFFSET, 4,
                    view.u16(FixedBlock.FIXUP_OFFSET) + " / " + view.u16(FixedBlock.FIXUP_COUNT),
                    "even offset, count " + (1 + view.size / FixedBlock.STRIDE), Map.of(), null);
            note(number, RecordFacts.DAMAGED, 0);
            return;
        }
        if (view.fix() == FixedBlock.Fix.TORN) {
            torn(view);
        }
        if (!view.has(0, 0x30)) {
            note(number, RecordFacts.DAMAGED, 0);
            return;
        }
        header(view, number);
        boolean walked = attributes.walk(view);
        if (attributes.sawList()) {
            withList.add(view.number);
        }
        if (facts != null) {
            note(number, RecordFacts.USABLE | (view.inUse() ? RecordFacts.IN_USE : 0) | (view.directory() ? RecordFacts.FOLDER : 0)
                    | (view.isBase() ? RecordFacts.BASE : 0) | (view.anyUnread() ? RecordFacts.UNREAD : 0)
                    | (walked ? 0 : RecordFacts.BROKEN), view.sequence());
            facts.size(number, attributes.unnamedSize());
        }
    }

    private void note(int number, int state, int sequence) {
        if (facts != null) {
            facts.record(number, state, sequence, -1);
        }
    }

    private void unsigned(RecordView view, int number) {
        int stored = view.s32(0);
        Boolean used = bitmap.inUse(number);
        boolean blank = stored == 0 || stored == -1;
        if (blank && !Boolean.TRUE.equals(used)) {
            note(number, 0, 0);
            return;
        }
        byte[] four = java.util.Arrays.copyOfRange(view.bytes, view.start, view.start + 4);
        fail(SIGNATURE, view, 0, 4, Show.hex(four), "46 49 4C 45 (FILE)", Map.of(),
                Boolean.FALSE.equals(used) ? Severity.COSMETIC : null);
        note(number, Boolean.FALSE.equals(used) ? 0 : RecordFacts.DAMAGED, 0);
    }

    private void torn(RecordView view) {
        int number = view.u16(view.u16(FixedBlock.FIXUP_OFFSET));
        for (int stride = 0; stride < view.size / FixedBlock.STRIDE; stride++) {
            if (view.strideTorn(stride)) {
                int at = (stride + 1) * FixedBlock.STRIDE - 2;
                fail(FIXUP, view, at, 2, hex4(view.u16(at)), hex4(number), Map.of("stride", stride + 1), null);
            }
        }
    }

    private void header(RecordView view, int number) {
        if (view.numbered() && view.inUse()) {
            numbered = true;
            long own = view.u32(RecordView.NUMBER);
            if (own != (number & 0xFFFFFFFFL)) {
                fail("ntfs.record.number-position", view, RecordView.NUMBER, 4, own, number, Map.of(), null);
            }
        }
        long allocated = view.u32(RecordView.ALLOCATED);
        long used = view.u32(RecordView.USED);
        int first = view.u16(RecordView.FIRST_ATTRIBUTE);
        int least = view.u16(FixedBlock.FIXUP_OFFSET) + 2 * view.u16(FixedBlock.FIXUP_COUNT);
        Severity severity = view.inUse() ? null : Severity.COSMETIC;
        if (allocated != view.size) {
            fail(SIZES, view, RecordView.ALLOCATED, 4, allocated, view.size, Map.of("field", Phrase.of("field.allocated")), severity);
        } else if ((first & 7) != 0 || first < least || first > FIRST_STRIDE_END) {
            fail(SIZES, view, RecordView.FIRST_ATTRIBUTE, 2, first, "a multiple of 8 from " + least + " on",
                    Map.of("field", Phrase.of("field.first")), severity);
        } else if (used < first + 8 || used > allocated || (used & 7) != 0) {
            fail(SIZES, view, RecordView.USED, 4, used, "a multiple of 8, " + (first + 8) + " to " + allocated,
                    Map.of("field", Phrase.of("field.used")), severity);
        }
        if (facts != null) {
            Boolean inUse = bitmap.inUse(number);
            if (inUse != null) {
                mapped = true;
                if (inUse != view.inUse()) {
                    fail("ntfs.record.flags-bitmap", view, RecordView.FLAGS, 2, view.inUse() ? "in use" : "free",
                            inUse ? "in use" : "free", Map.of(), null);
                }
            }
        }
    }

    private void unread(RecordView view) {
        int sector = table.image().sectorSize();
        for (int at = 0; at < view.size; at += FixedBlock.STRIDE) {
            long byteAt = view.strideUnread(at >> 9) ? table.byteAt(view.number, at) : -1;
            if (byteAt >= 0) {
                SectorRange one = new SectorRange(byteAt / sector, 1);
                add(unreadAny, one);
                if (at == 0) {
                    add(unreadFirst, one);
                }
            }
        }
    }

    private static void add(List<SectorRange> ranges, SectorRange one) {
        SectorRange last = ranges.isEmpty() ? null : ranges.get(ranges.size() - 1);
        if (last != null && last.end() == one.first()) {
            ranges.set(ranges.size() - 1, new SectorRange(last.first(), last.count() + one.count()));
        } else if (last == null || !last.contains(one)) {
            ranges.add(one);
        }
    }

    private void fail(String rule, RecordView view, int offset, int length, Object stored, Object computed, Map<String, Object> values,
            Severity severity) {
        tally.failed(rule, failure(table, view, offset, length, stored, computed, values, severity));
    }

    static Tally.Failure failure(FileTable table, RecordView view, int offset, int length, Object stored, Object computed,
            Map<String, Object> values, Severity severity) {
        long at = Math.max(0, table.byteAt(view.number, Math.min(offset, view.size - 1)));
        long start = Math.max(0, table.address(view.number));
        return new Tally.Failure(view.number, new ByteRange(at, length), new ByteRange(start, view.size), stored, computed, values, severity,
                null);
    }

    private static String hex4(int value) {
        return String.format(java.util.Locale.ROOT, "%04X", value);
    }

    /** Reports what was found, and what unread sectors left open. */
    void report(Checks out, ByteRange where) {
        if (numbered) {
            tally.applied("ntfs.record.number-position");
        }
        if (mapped) {
            tally.applied("ntfs.record.flags-bitmap");
        }
        Map<String, SectorRanges> missing = new TreeMap<>(java.util.Comparator.comparing((String r) -> !r.equals(FIXUP)).thenComparing(r -> r));
        if (!unreadAny.isEmpty()) {
            missing.put(FIXUP, SectorRanges.of(unreadAny));
            missing.put("ntfs.attribute.walk", SectorRanges.of(unreadAny));
        }
        if (!unreadFirst.isEmpty()) {
            missing.put(SIGNATURE, SectorRanges.of(unreadFirst));
            missing.put(SIZES, SectorRanges.of(unreadFirst));
        }
        tally.report(out, where, missing);
    }

    /** Records of which not even the first bytes were read. */
    long unusableUnread() {
        return unusableUnread;
    }
}
