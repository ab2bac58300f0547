package sectorglass.exfat;

import java.util.function.Supplier;

import sectorglass.image.ByteRange;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/**
 * The rules of one entry set. Where its checksum does not hold, the first broken field is the finding, and the checksum with everything else
 * follows from it. Source: Microsoft exFAT specification, sections 6.3, 7.4, 7.6 and 7.7.
 */
final class SetCheck {

    private final Tally tally;
    private final Geometry geometry;
    private final Upcase upcase;
    private EntrySet set;
    private Supplier<String> path;
    private boolean sumHolds;
    private Mark lead;
    /** The broken verdict about the place of the content, or null. */
    private Mark place;

    SetCheck(Tally tally, Geometry geometry, Upcase upcase) {
        this.tally = tally;
        this.geometry = geometry;
        this.upcase = upcase;
    }

    /**
     * Checks a set that was read whole.
     *
     * @param shape the broken verdict about its shape, or null
     * @return the broken verdict that everything about the set follows from, or null
     */
    Mark check(EntrySet entries, Mark shape, Supplier<String> name) {
        set = entries;
        path = name;
        int sum = set.checksum(false);
        sumHolds = sum == set.storedChecksum();
        lead = shape;
        place = null;
        if (set.count() >= 2 && set.directory().u8(set.slot() + 1, 0) == 0xC0) {
            name();
            allocation();
        }
        times();
        reserved();
        if (!sumHolds) {
            Mark mark = fail("exfat.set-checksum", set.where(0, 2, 2), Outcome.failed(Text.hex(set.storedChecksum(), 4), Text.hex(sum, 4)));
            return lead != null ? lead : mark;
        }
        return lead != null ? lead : place;
    }

    private void name() {
        int length = set.nameLength();
        int there = Math.max(0, set.count() - 2) * EntrySet.NAME_CHARACTERS;
        if (length == 0) {
            fail("exfat.name-length", set.where(1, EntrySet.NAME_LENGTH, 1), Outcome.failed("0 characters", "1 to 255 characters"));
            return;
        }
        if (length > there) {
            return;
        }
        int hash = NameScan.hash(set.directory().bytes(), (set.slot() + 2) * Directory.SLOT, length, upcase);
        if (hash <= NameScan.ILLEGAL) {
            int i = NameScan.ILLEGAL - hash;
            fail("exfat.name-length", set.where(2 + i / EntrySet.NAME_CHARACTERS, 2 + 2 * (i % EntrySet.NAME_CHARACTERS), 2),
                    Outcome.failed("the character " + Text.hex(set.character(i), 4),
                            "no control character and none of \" * / : < > ? \\ |"));
            return;
        }
        if (length <= 2 && (set.name().equals(".") || set.name().equals(".."))) {
            fail("exfat.name-length", set.where(2, 2, 4), Outcome.failed("the name \"" + set.name() + "\"", "any name but . and .."));
            return;
        }
        if (hash >= 0 && hash != set.nameHash()) {
            fail("exfat.name-hash", set.where(1, EntrySet.NAME_HASH, 2), Outcome.failed(Text.hex(set.nameHash(), 4), Text.hex(hash, 4)));
        }
    }

    private void allocation() {
        long first = set.firstCluster();
        long bytes = set.dataLength();
        if (first == 0 && (bytes != 0 || set.noFatChain())) {
            fail("exfat.start-in-range", bytes != 0 ? set.where(1, EntrySet.FIRST_CLUSTER, 4) : set.where(1, EntrySet.STREAM_FLAGS, 1),
                    Outcome.failed(bytes != 0 ? "no cluster, but has " + Long.toUnsignedString(bytes) + " bytes" : "no cluster, but is contiguous",
                            "2 to " + geometry.lastCluster() + ", or no length and NoFatChain 0"));
        } else if (first != 0 && !geometry.exists(first)) {
            fail("exfat.start-in-range", set.where(1, EntrySet.FIRST_CLUSTER, 4), Outcome.failed("cluster " + first, "2 to "
                    + geometry.lastCluster()));
        } else if (first != 0 && set.noFatChain()) {
            run(first, bytes);
        }
        if (Long.compareUnsigned(set.validLength(), bytes) > 0 || set.folder() && set.validLength() != bytes) {
            fail("exfat.valid-length", set.where(1, EntrySet.VALID_LENGTH, 8), Outcome.failed(Long.toUnsignedString(set.validLength()),
                    (set.folder() ? "" : "at most ") + Long.toUnsignedString(bytes)));
        }
        boolean whole = bytes > 0 && bytes % geometry.clusterBytes() == 0 && bytes <= Directory.MOST_BYTES;
        if (set.folder() && !whole) {
            fail("exfat.directory-length", set.where(1, EntrySet.DATA_LENGTH, 8), Outcome.failed(Long.toUnsignedString(bytes) + " bytes",
                    "whole clusters of " + geometry.clusterBytes() + " bytes, at most 256 MiB"));
        }
    }

    private void run(long first, long bytes) {
        long clusters = bytes < 0 ? Long.MAX_VALUE / 2 : geometry.clustersOf(bytes);
        if (bytes == 0) {
            fail("exfat.start-in-range", set.where(1, EntrySet.STREAM_FLAGS, 1), Outcome.failed("a contiguous run of no length",
                    "a length, or NoFatChain 0"));
        } else if (first + clusters - 1 > geometry.lastCluster()) {
            fail("exfat.contiguous-run-fits", set.where(1, EntrySet.DATA_LENGTH, 8), Outcome.failed(first + clusters - 1,
                    "at most " + geometry.lastCluster()));
        }
    }

    private void times() {
        moment(8, 20, "CreateTimestamp");
        moment(12, 21, "LastModifiedTimestamp");
        moment(16, -1, "LastAccessedTimestamp");
    }

    private void moment(int at, int incrementAt, String field) {
        Directory directory = set.directory();
        int time = directory.u16(set.slot(), at);
        int date = directory.u16(set.slot(), at + 2);
        int month = date >> 5 & 15;
        int day = date & 31;
        boolean legal = time >> 11 <= 23 && (time >> 5 & 63) <= 59 && (time & 31) <= 29 && month >= 1 && month <= 12 && day >= 1
                && (day <= 28 || day <= java.time.YearMonth.of(1980 + (date >> 9), month).lengthOfMonth());
        if (!legal) {
            fail("exfat.timestamps-legal", set.where(0, at, 4), Outcome.failed(Text.hex((long) date << 16 | time, 8),
                    "month 1 to 12, a day of that month, hour to 23, minute to 59, second to 58").with("field", field));
        } else if (incrementAt >= 0 && directory.u8(set.slot(), incrementAt) > 199) {
            fail("exfat.timestamps-legal", set.where(0, incrementAt, 1), Outcome.failed(directory.u8(set.slot(), incrementAt), "0 to 199")
                    .with("field", field));
        }
    }

    private void reserved() {
        zero(0, 6, 2);
        zero(0, 25, 7);
        if ((set.attributes() & ~0x37) != 0) {
            fail("exfat.reserved-zero", set.where(0, 4, 2), Outcome.failed(Text.hex(set.attributes(), 4), "attributes without reserved bits"));
        }
        if (set.count() >= 2) {
            zero(1, 2, 1);
            zero(1, 6, 2);
            zero(1, 16, 4);
        }
    }

    private void zero(int entry, int at, int length) {
        for (int i = at; i < at + length; i++) {
            int value = set.directory().u8(set.slot() + entry, i);
            if (value != 0) {
                fail("exfat.reserved-zero", set.where(entry, i, 1), Outcome.failed(Text.hex(value, 2), "0"));
                return;
            }
        }
    }

    private Mark fail(String rule, ByteRange where, Outcome outcome) {
        Mark mark = tally.fail(rule, set.range(), where, outcome.with("path", path.get()).because(sumHolds ? null : lead));
        if (lead == null && !rule.equals("exfat.set-checksum")) {
            lead = sumHolds ? null : mark;
        }
        if (rule.equals("exfat.start-in-range") || rule.equals("exfat.contiguous-run-fits")) {
            place = mark;
        }
        return mark;
    }
}
