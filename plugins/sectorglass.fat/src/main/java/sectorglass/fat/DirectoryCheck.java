package sectorglass.fat;

import java.util.function.Supplier;

import sectorglass.image.ByteRange;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** The rules of the slots of one directory; hands each file and folder on. Source: Microsoft FAT specification; fsck.fat. */
final class DirectoryCheck {

    /** Takes what a directory holds. */
    interface Entries {
        /**
         * A file or folder, "." and ".." left out.
         *
         * @param name gives its name; only asked for where needed
         */
        void entry(Folder folder, int slot, Supplier<String> name, Mark cause);
    }

    private static final String DOT = ".          ";
    private static final String DOTS = "..         ";

    private final Tally tally;
    private final Owners owners;
    private final FatKind kind;
    private final Entries entries;
    private final SlotCheck slots;
    private final LongName longName = new LongName();
    private final NameSet shortNames = new NameSet();
    private final NameSet longNames = new NameSet();
    private Folder folder;
    private Directory directory;
    private Mark cause;
    private int labels;

    DirectoryCheck(Tally tally, Owners owners, FatKind kind, Entries entries) {
        this.tally = tally;
        this.owners = owners;
        this.kind = kind;
        this.entries = entries;
        this.slots = new SlotCheck(tally, kind);
    }

    /** Number of labels met in all directories. */
    int labels() {
        return labels;
    }

    /** @return whether every slot up to the end was read and the directory could be followed */
    boolean check(Folder next) {
        folder = next;
        directory = next.directory();
        cause = next.root() ? null : dots();
        if (cause != null && !SlotCheck.plausible(directory)) {
            return false;
        }
        slots.begin(directory, cause);
        longName.clear();
        shortNames.clear();
        longNames.clear();
        int end = directory.slots();
        for (int slot = 0; slot < directory.slots(); slot++) {
            if (!directory.isRead(slot)) {
                longName.clear();
                continue;
            }
            int first = directory.u8(slot, 0);
            if (first == 0) {
                orphanedName(slot, "the end of the directory");
                afterEnd(slot);
                end = slot;
                break;
            }
            slot(slot, first);
        }
        if (end == directory.slots()) {
            orphanedName(end, "the end of the directory");
        }
        shortAgainstLong(end);
        boolean whole = directory.nextUnread(0) >= end;
        if (!whole) {
            // entries that were not read may have broken chains
            TreeRules.OF_SLOTS.forEach(rule -> tally.unread(rule, directory.missing()));
            TreeRules.OF_CHAINS.forEach(rule -> tally.unread(rule, directory.missing()));
        }
        return whole;
    }

    private void slot(int slot, int first) {
        int attributes = directory.u8(slot, 11);
        if (first == 0xE5) {
            orphanedName(slot, "a deleted slot");
        } else if ((attributes & 0x3F) == 0x0F) {
            part(slot);
        } else if ((attributes & 0x18) == 0x08) {
            orphanedName(slot, "a volume label");
            label(slot);
        } else if (first == '.' && !folder.root() && slot < 2) {
            longName.clear();
        } else {
            entry(slot);
        }
    }

    private void part(int slot) {
        if (longName.begun() && (directory.u8(slot, 0) & 0x40) != 0) {
            orphanedName(slot, "the start of another long name");
        }
        if (!longName.fits(directory, slot)) {
            int order = directory.u8(slot, 0) & 0x3F;
            boolean number = !longName.begun() || order != longName.next();
            String expected = longName.begun() ? String.valueOf(longName.next()) : "a slot with 40 in the number";
            fail(number ? "fat.long-name-order" : "fat.long-name-checksum", slot, number ? 0 : 13, 1, number
                    ? Outcome.failed(Text.hex(directory.u8(slot, 0), 2), expected)
                    : Outcome.failed(Text.hex(directory.u8(slot, 13), 2), Text.hex(longName.checksum(), 2)), owners.path(folder.number()));
            longName.clear();
            skipName = true;
        } else if ((directory.u8(slot, 0) & 0x40) != 0) {
            longName.begin(directory, slot);
            skipName = false;
        } else {
            longName.add(directory, slot);
        }
        if (directory.u16(slot, 26) != 0 || directory.u8(slot, 12) != 0) {
            int at = directory.u16(slot, 26) != 0 ? 26 : 12;
            fail("fat.long-name-padding", slot, at, 1, Outcome.failed(Text.hex(directory.u8(slot, at), 2), "0"),
                    owners.path(folder.number()));
        }
    }

    /** Whether slots of a name whose order is broken go on: one finding is enough. */
    private boolean skipName;

    private void orphanedName(int slot, String by) {
        if (longName.begun()) {
            int at = longName.firstSlot();
            fail("fat.long-name-has-short", at, 0, Directory.SLOT, Outcome.failed(by, "an 8.3 entry"), owners.path(folder.number()));
        }
        longName.clear();
        skipName = false;
    }

    private void entry(int slot) {
        boolean named = longName.begun();
        boolean whole = named && longName.next() == 0;
        if (named && !whole) {
            fail("fat.long-name-order", slot - 1, 0, 1, Outcome.failed(Text.hex(directory.u8(slot - 1, 0), 2),
                    "further parts down to 1"), owners.path(folder.number()));
        }
        if (whole) {
            int computed = ShortName.checksum(directory.bytes(), slot * Directory.SLOT);
            if (computed != longName.checksum()) {
                fail("fat.long-name-checksum", slot - 1, 13, 1, Outcome.failed(Text.hex(longName.checksum(), 2), Text.hex(computed, 2)),
                        path(slot));
                whole = false;
            } else {
                longNameRules(slot);
            }
        }
        String name = whole ? longName.text() : null;
        Supplier<String> spelled = () -> name != null ? name : shortName(slot);
        slots.check(slot, () -> owners.path(folder.number(), spelled.get()));
        unique(slot, name);
        longName.clear();
        skipName = false;
        entries.entry(folder, slot, spelled, cause);
    }

    private void longNameRules(int slot) {
        int odd = longName.oddPadding();
        if (odd >= 0) {
            int[] place = longName.placeOf(odd);
            fail("fat.long-name-padding", place[0], place[1], 2, Outcome.failed(Text.hex(longName.character(odd), 4), "0xFFFF"), path(slot));
        }
    }

    private void unique(int slot, String name) {
        byte[] bytes = directory.bytes();
        int at = slot * Directory.SLOT;
        long hash = 17;
        for (int i = 0; i < 11; i++) {
            hash = hash * 31 + bytes[at + i];
        }
        boolean twice = shortNames.add(hash, slot, (a, b) -> java.util.Arrays.equals(bytes, a * Directory.SLOT, a * Directory.SLOT + 11, bytes,
                b * Directory.SLOT, b * Directory.SLOT + 11));
        if (twice) {
            fail("fat.name-unique", slot, 0, 11, Outcome.failed(Text.quoted(shortName(slot)), "once"), path(slot));
        } else if (name != null && longNames.add(longName.hash(), slot, (a, b) -> true)) {
            fail("fat.name-unique", longName.firstSlot(), 0, Directory.SLOT, Outcome.failed(Text.quoted(name), "once"), path(slot));
        }
    }

    /** Long and short names share one name space; the two names of one entry may be alike. */
    private void shortAgainstLong(int end) {
        byte[] bytes = directory.bytes();
        for (int slot = 0; slot < end && !longNames.isEmpty(); slot++) {
            int at = slot * Directory.SLOT;
            if (directory.isRead(slot) && (bytes[at] & 0xFF) != 0xE5 && (bytes[at + 11] & 0x08) == 0) {
                int other = longNames.slot(LongName.hash(ShortName.text(bytes, at, 0)));
                if (other >= 0 && other != slot) {
                    fail("fat.name-unique", slot, 0, 11, Outcome.failed(Text.quoted(shortName(slot)), "once"), path(slot));
                }
            }
        }
    }

    private void label(int slot) {
        labels++;
        if (labels > 1 || !folder.root()) {
            fail("fat.one-label", slot, 11, 1, Outcome.failed(Text.quoted(shortName(slot)), folder.root() ? "one label" : "no label here"),
                    owners.path(folder.number()));
        } else if (directory.u16(slot, 26) != 0 || directory.u32(slot, 28) != 0) { // a label has no content
            fail("fat.one-label", slot, 26, 6, Outcome.failed("first cluster " + directory.u16(slot, 26) + ", size " + directory.u32(slot, 28),
                    "first cluster 0, size 0"), owners.path(folder.number()));
        }
    }

    /** "." is the directory itself, ".." its parent, 0 for the root. */
    private Mark dots() {
        Mark self = dot(0, DOT, folder.cluster(), null);
        Mark parent = dot(1, DOTS, folder.parentCluster(), self);
        return self != null ? self : parent;
    }

    private Mark dot(int slot, String name, long cluster, Mark before) {
        if (slot >= directory.slots() || !directory.isRead(slot)) {
            tally.unread("fat.dot-entries", directory.missing());
            return null;
        }
        String stored = new String(directory.bytes(), slot * Directory.SLOT, 11, java.nio.charset.StandardCharsets.ISO_8859_1);
        long points = directory.u16(slot, 26) | (kind == FatKind.FAT32 ? (long) directory.u16(slot, 20) << 16 : 0);
        boolean named = stored.equals(name) && (directory.u8(slot, 11) & 0x10) != 0;
        if (named && points == cluster) {
            return null;
        }
        ByteRange whole = directory.where(slot, 0, Directory.SLOT);
        Mark mark = tally.fail("fat.dot-entries", whole, named ? directory.where(slot, 26, 2) : whole,
                Outcome.failed(named ? "cluster " + points : Text.quoted(stored), Text.quoted(name.trim()) + " with cluster " + cluster)
                        .with("slot", slot).with("path", owners.path(folder.number())).because(before));
        return named ? null : mark;
    }

    private void afterEnd(int end) {
        byte[] bytes = directory.bytes();
        for (int slot = end + 1; slot < directory.slots(); slot++) {
            int first = bytes[slot * Directory.SLOT] & 0xFF;
            if (first != 0 && first != 0xE5 && directory.isRead(slot)) {
                fail("fat.nothing-after-end-slot", slot, 0, 11, Outcome.failed(Text.quoted(shortName(slot)), "free slots"),
                        owners.path(folder.number()));
                return;
            }
        }
    }

    private String shortName(int slot) {
        return ShortName.text(directory.bytes(), slot * Directory.SLOT, directory.u8(slot, 12));
    }

    private String path(int slot) {
        return owners.path(folder.number(), shortName(slot));
    }

    private void fail(String rule, int slot, int at, int length, Outcome outcome, String path) {
        if (skipName && rule.startsWith("fat.long-name-order")) {
            return;
        }
        tally.fail(rule, directory.where(slot, 0, Directory.SLOT), directory.where(slot, at, length), outcome.with("path", path)
                .because(cause));
    }
}
