package sectorglass.ntfs;

import java.util.HashSet;
import java.util.Map;
import java.util.Set;

import sectorglass.verify.Phrase;
import sectorglass.verify.Severity;

/** The rules of the attributes of one record: the chain, ids, bounds, runs, sizes. */
final class AttributeChecks {
    private static final String WALK = "ntfs.attribute.walk";
    private static final String VALUE = "ntfs.attribute.value";
    private static final String SHAPE = "ntfs.run.list-shape";
    private static final String FIELD = "field";
    private static final String OFFSET = "offset";
    /** Ticks of 1980-01-01: earlier times are a dead clock's, except 0 and 1970 itself (mkntfs -T). */
    private static final long EARLIEST = 119_600_064_000_000_000L;

    private final FileTable table;
    private final Geometry geometry;
    private final RecordFacts facts;
    private final ClaimScan claimScan;
    private final Tally tally;
    private final RunList runs = new RunList();
    private final long latest = NameValue.UNIX_EPOCH + (System.currentTimeMillis() + 366L * 86_400_000) * 10_000;
    private boolean list;
    private long size;
    private int names;
    private int dosNames;
    private int fileAttributes;

    AttributeChecks(FileTable table, RecordFacts facts, Claims claims, Tally tally) {
        this.table = table;
        this.geometry = table.geometry();
        this.facts = facts;
        this.claimScan = claims == null ? null : new ClaimScan(table.geometry(), claims);
        this.tally = tally;
        tally.applied(WALK, "ntfs.attribute.id", VALUE, SHAPE, "ntfs.run.beyond-volume", "ntfs.sizes-consistent", "ntfs.data-flags-agree");
        if (facts != null) {
            tally.applied("ntfs.link-count", "ntfs.time-plausible");
        }
    }

    boolean sawList() {
        return list;
    }

    /** Bytes of the unnamed stream of the record seen last; -1 where not known. */
    long unnamedSize() {
        return size;
    }

    /** Walks a record; false where the chain breaks or its rest was not read. */
    boolean walk(RecordView view) {
        list = false;
        size = -1;
        names = 0;
        dosNames = 0;
        fileAttributes = -1;
        int previous = 0;
        long ids = 0;
        Set<Integer> moreIds = null;
        int nextId = view.u16(RecordView.NEXT_ID);
        view.rewind();
        while (view.nextAttribute()) {
            int type = view.type();
            if ((type & 15) != 0 || Integer.compareUnsigned(type, previous) < 0) {
                fail(WALK, view, view.attribute, 4, "0x" + Integer.toHexString(type), "a type from 0x" + Integer.toHexString(previous) + " on", null);
                return false;
            }
            previous = type;
            int id = view.attributeId();
            boolean twice;
            if (id < 64) {
                twice = (ids >> id & 1) != 0;
                ids |= 1L << id;
            } else {
                moreIds = moreIds == null ? new HashSet<>() : moreIds;
                twice = !moreIds.add(id);
            }
            if (twice || id >= nextId) {
                fail("ntfs.attribute.id", view, view.attribute + 0x0E, 2, id, twice ? "unique" : "below " + nextId, null);
            }
            attribute(view);
        }
        if (view.end() == RecordView.End.BROKEN) {
            broken(view);
        }
        boolean whole = view.end() == RecordView.End.MARK;
        if (whole && facts != null && view.inUse() && view.isBase() && !list) {
            links(view);
        }
        return whole;
    }

    private void broken(RecordView view) {
        int at = Math.min(view.next, view.size - 8);
        Severity severity = view.inUse() ? null : Severity.COSMETIC;
        if (view.next < 0x28 || (view.next & 7) != 0 || view.next > view.size - 24) {
            tally.failed(WALK, RecordChecks.failure(table, view, at, 4, "no end mark", "FF FF FF FF", Map.of(OFFSET, view.next), severity));
            return;
        }
        int least = view.u8(at + 8) == 0 ? 24 : 64;
        tally.failed(WALK, RecordChecks.failure(table, view, at + 4, 4, view.u32(at + 4), "a multiple of 8, " + least + " to "
                + (view.used() - at), Map.of(OFFSET, at), severity));
    }

    private void attribute(RecordView view) {
        int length = view.length();
        int nameEnd = view.u16(view.attribute + 0x0A) + 2 * view.nameLength();
        if (view.nameLength() > 0 && nameEnd > length) {
            value(view, 0x09, 3, "field.name", nameEnd, length);
            return;
        }
        if (view.u8(view.attribute + 8) > 1) {
            value(view, 0x08, 1, "field.form", view.u8(view.attribute + 8), 1);
            return;
        }
        if (view.resident()) {
            resident(view, length);
        } else if (view.has(view.attribute, 0x40)) {
            nonResident(view, length);
        }
        if (view.type() == AttributeType.ATTRIBUTE_LIST) {
            list = true;
        } else if (view.type() == AttributeType.DATA && view.nameLength() == 0) {
            flags(view);
        }
    }

    private void resident(RecordView view, int length) {
        int at = view.valueOffset();
        if (at < 0) {
            value(view, 0x10, 6, "field.value", view.u16(view.attribute + 0x14) + view.u32(view.attribute + 0x10), length);
            return;
        }
        int bytes = view.valueLength();
        if (view.type() == AttributeType.DATA && view.nameLength() == 0) {
            size = bytes;
        } else if (view.type() == AttributeType.STANDARD_INFORMATION && bytes >= 0x30 && view.has(at, 0x30)) {
            fileAttributes = view.s32(at + 0x20);
            times(view, at);
        } else if (view.type() == AttributeType.FILE_NAME) {
            name(view, at, bytes);
        }
    }

    private void name(RecordView view, int at, int bytes) {
        names++;
        int units = bytes >= NameValue.HEAD && view.has(at, NameValue.HEAD) ? view.u8(at + NameValue.NAME_LENGTH) : -1;
        if (units <= 0 || NameValue.HEAD + 2 * units > bytes) {
            if (units >= 0 || bytes < NameValue.HEAD) {
                value(view, at - view.attribute + NameValue.NAME_LENGTH, 1, "field.file-name", NameValue.HEAD + 2 * Math.max(0, units), bytes);
            }
            return;
        }
        dosNames += view.u8(at + NameValue.NAMESPACE) == NameValue.DOS ? 1 : 0;
        if (facts != null && view.inUse() && view.has(at + NameValue.HEAD, 2 * units)) {
            long base = view.isBase() ? view.number : view.baseNumber();
            long parent = view.u64(at);
            long folder = parent & RecordView.NUMBER_MASK;
            facts.name((int) base, folder, (int) (parent >>> 48), view.isBase() ? at : -1,
                    RecordFacts.hash(base, folder, view, at + NameValue.HEAD, units));
        }
    }

    private void times(RecordView view, int at) {
        if (facts == null || !view.inUse()) {
            return;
        }
        for (int i = 0; i < 4; i++) {
            long ticks = view.u64(at + 8 * i);
            if (ticks != 0 && ticks != NameValue.UNIX_EPOCH && (ticks < EARLIEST || ticks > latest)) {
                java.time.Instant shown = NameValue.instant(ticks);
                tally.failed("ntfs.time-plausible", RecordChecks.failure(table, view, at + 8 * i, 8, shown == null ? Long.toUnsignedString(ticks)
                        : shown, "1980 to a year from now", Map.of(), null));
                return;
            }
        }
    }

    private void nonResident(RecordView view, int length) {
        int from = view.u16(view.attribute + 0x20);
        if (from < 0x40 || from >= length) {
            value(view, 0x20, 2, "field.runs", from, length);
            return;
        }
        runs.clear();
        long lowest = view.lowestVcn();
        if (lowest < 0) {
            fail(SHAPE, view, view.attribute + 0x10, 8, lowest, "0 or more", Phrase.of("field.lowest"));
            return;
        }
        long covered = runs.add(view, view.runsOffset(), view.next, lowest);
        if (runs.problem() == RunList.Problem.UNREAD) {
            return;
        }
        if (runs.problem() != RunList.Problem.NONE) {
            fail(SHAPE, view, Math.min(runs.problemOffset(), view.size - 1), 1, words(runs.problem()), "runs that end with 00",
                    Phrase.of("field.run"));
        } else if (covered != view.highestVcn() - lowest + 1) {
            fail(SHAPE, view, view.attribute + 0x18, 8, view.highestVcn(), lowest + covered - 1, Phrase.of("field.highest"));
        } else if (lowest == 0) {
            sizes(view, covered);
        }
        long n = geometry.clusters();
        for (int i = 0; i < runs.runs(); i++) {
            if (runs.lcn(i) != RunList.HOLE && (runs.lcn(i) >= n || runs.count(i) > n - runs.lcn(i))) {
                fail("ntfs.run.beyond-volume", view, runOffset(view, i), 1, runs.lcn(i) + runs.count(i), n, null);
                break;
            }
        }
        if (claimScan != null && view.inUse()) {
            claimScan.add(view, runs);
        }
    }

    private static String words(RunList.Problem problem) {
        return switch (problem) {
            case UNTERMINATED -> "no end";
            case BAD_FIELD_SIZE -> "illegal field sizes";
            case BAD_LENGTH -> "an illegal length";
            case BAD_LCN -> "an illegal cluster";
            default -> problem.name();
        };
    }

    /** Offset of a run in the record. */
    private static int runOffset(RecordView view, int index) {
        int at = view.runsOffset();
        for (int i = 0; i < index; i++) {
            int head = view.u8(at);
            at += 1 + (head & 15) + (head >> 4);
        }
        return at;
    }

    private void sizes(RecordView view, long covered) {
        long real = view.realSize();
        long allocated = view.allocatedSize();
        long initialised = view.initialisedSize();
        if (view.type() == AttributeType.DATA && view.nameLength() == 0 && real >= 0) {
            size = real;
        }
        boolean onePiece = !list;
        long backed = covered > Long.MAX_VALUE / geometry.clusterBytes() ? Long.MAX_VALUE : covered * geometry.clusterBytes();
        if (real < 0 || real > allocated) {
            size(view, 0x30, "field.real", real, "at most " + allocated);
        } else if (initialised < 0 || initialised > real) {
            size(view, 0x38, "field.initialised", initialised, "at most " + real);
        } else if (onePiece && allocated != backed) {
            size(view, 0x28, "field.allocated", allocated, backed);
        } else if (onePiece && view.length() >= 0x48 && view.u16(view.attribute + 0x20) >= 0x48
                && (view.attributeFlags() & (FileStream.SPARSE | FileStream.COMPRESSED_MASK)) != 0 && view.has(view.attribute, 0x48)) {
            long mapped = 0;
            for (int i = 0; i < runs.runs(); i++) {
                mapped += runs.lcn(i) == RunList.HOLE ? 0 : runs.count(i);
            }
            long total = view.u64(view.attribute + 0x40);
            if (total != mapped * geometry.clusterBytes()) {
                size(view, 0x40, "field.total", total, mapped * geometry.clusterBytes());
            }
        }
    }

    private void size(RecordView view, int offset, String field, Object stored, Object computed) {
        tally.failed("ntfs.sizes-consistent", RecordChecks.failure(table, view, view.attribute + offset, 8, stored, computed,
                Map.of(FIELD, Phrase.of(field), OFFSET, view.attribute), severity(view)));
    }

    /** Sparse, compressed and encrypted in the stream against the file attributes. */
    private void flags(RecordView view) {
        if (fileAttributes < 0 || !view.inUse() || view.directory() || view.resident() || view.lowestVcn() != 0) {
            return;
        }
        int flags = view.attributeFlags();
        boolean sparse = (flags & FileStream.SPARSE) != 0 && (fileAttributes & 0x200) == 0;
        boolean compressed = (flags & FileStream.COMPRESSED_MASK) != 0 != ((fileAttributes & 0x800) != 0);
        boolean encrypted = (flags & FileStream.ENCRYPTED) != 0 != ((fileAttributes & 0x4000) != 0);
        if (sparse || compressed || encrypted) {
            fail("ntfs.data-flags-agree", view, view.attribute + 0x0C, 2, "0x" + Integer.toHexString(flags),
                    "0x" + Integer.toHexString(fileAttributes), null);
        }
    }

    private void links(RecordView view) {
        int links = view.u16(RecordView.LINKS);
        if (links != names && links != names - dosNames) {
            tally.failed("ntfs.link-count", RecordChecks.failure(table, view, RecordView.LINKS, 2, links, names, Map.of(), null));
        }
    }

    private void value(RecordView view, int offset, int length, String field, long end, long limit) {
        tally.failed(VALUE, RecordChecks.failure(table, view, view.attribute + offset, length, end, limit,
                Map.of(FIELD, Phrase.of(field), OFFSET, view.attribute), severity(view)));
    }

    private void fail(String rule, RecordView view, int offset, int length, Object stored, Object computed, Object field) {
        tally.failed(rule, RecordChecks.failure(table, view, offset, length, stored, computed, field == null
                ? Map.of(OFFSET, view.attribute) : Map.of(FIELD, field, OFFSET, view.attribute), severity(view)));
    }

    private static Severity severity(RecordView view) {
        return view.inUse() ? null : Severity.COSMETIC;
    }
}
