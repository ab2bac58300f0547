package sectorglass.exfat;

import java.util.function.Supplier;

import sectorglass.image.ByteRange;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** The entries of one directory: finds the sets, judges their shape, hands them on. Source: Microsoft exFAT specification, sections 6 to 8. */
final class DirectoryCheck {

    /** Takes the sets of files and folders. */
    interface Sets {
        /**
         * @param read whether all its entries were read
         * @param cause the broken verdict that everything about the set follows from, or null
         */
        void set(int folder, EntrySet set, boolean read, Mark cause);
    }

    private final Tally tally;
    private final Owners owners;
    private final SetCheck sets;
    private final Sets out;
    private final EntrySet set = new EntrySet();
    private Directory directory;
    private int folder;
    /** Whether the set met last has a broken shape: entries left over after it follow from that. */
    private boolean shapeBroken;
    private Mark firstOdd;
    private final Supplier<String> path = this::path;

    DirectoryCheck(Tally tally, Owners owners, Geometry geometry, Upcase upcase, Sets out) {
        this.tally = tally;
        this.owners = owners;
        this.sets = new SetCheck(tally, geometry, upcase);
        this.out = out;
    }

    /** @return whether every entry up to the end was read */
    boolean check(int number, Directory slots, boolean root) {
        folder = number;
        directory = slots;
        firstOdd = null;
        int end = slots.slots();
        boolean stray = false;
        for (int slot = 0; slot < slots.slots(); slot++) {
            if (!slots.isRead(slot)) {
                stray = true;
                continue;
            }
            int type = slots.u8(slot, 0);
            if (type == 0) {
                end = slot;
                afterEnd(slot);
                break;
            }
            if (type < 0x80) {
                stray = false;
            } else if (type == 0x85) {
                slot += file(slot) - 1;
                stray = shapeBroken;
            } else if ((type & 0x40) != 0) {
                if (!stray) {
                    odd("exfat.set-shape", slot, Outcome.failed("an entry " + Text.hex(type, 2) + " without a file entry before it",
                            "a file entry first"));
                }
                stray = true;
            } else {
                primary(slot, type, root);
                stray = type == 0xA1 || type == 0xA2;
            }
        }
        boolean whole = slots.nextUnread(0) >= end;
        if (!whole) {
            // entries that were not read may have broken chains
            TreeRules.OF_ENTRIES.forEach(rule -> tally.unread(rule, slots.missing()));
            TreeRules.OF_CHAINS.forEach(rule -> tally.unread(rule, slots.missing()));
        }
        return whole;
    }

    private void primary(int slot, int type, boolean root) {
        boolean rootOnly = type == 0x81 || type == 0x82 || type == 0x83;
        boolean critical = (type & 0x20) == 0;
        if (rootOnly ? !root : critical) {
            odd("exfat.critical-only-in-root", slot, Outcome.failed("an entry " + Text.hex(type, 2), rootOnly
                    ? "such an entry in the root directory only" : "a known type"));
        }
        if (type == 0xA0 && directory.isRead(slot)) {
            set.at(directory, slot, 1);
            int sum = set.checksum(false);
            if (sum != set.storedChecksum()) {
                fail("exfat.set-checksum", slot, 2, 2, Outcome.failed(Text.hex(set.storedChecksum(), 4), Text.hex(sum, 4)));
            }
        }
    }

    /** Reports an entry that does not belong here; further ones in the same directory follow from the first. */
    private void odd(String rule, int slot, Outcome outcome) {
        Mark mark = fail(rule, slot, 0, 1, outcome.because(firstOdd));
        firstOdd = firstOdd == null ? mark : firstOdd;
    }

    /** @return entries that were taken as the set */
    private int file(int slot) {
        int stored = directory.u8(slot, 1);
        int room = Math.min(1 + stored, directory.slots() - slot);
        int count = 1;
        while (count < room && (!directory.isRead(slot + count) || (directory.u8(slot + count, 0) & 0xC0) == 0xC0)) {
            count++;
        }
        boolean read = directory.isRead(slot, count);
        set.at(directory, slot, count);
        shapeBroken = !read;
        if (!read) {
            out.set(folder, set, false, null);
            return count;
        }
        Mark shape = shape(slot, stored, count);
        shapeBroken = shape != null;
        Mark cause = sets.check(set, shape, path);
        if (count >= 2 && directory.u8(slot + 1, 0) == 0xC0) {
            out.set(folder, set, true, cause);
        }
        return count;
    }

    private String path() {
        boolean named = set.count() >= 3 && directory.u8(set.slot() + 2, 0) == 0xC1;
        return named ? owners.path(folder, set.name()) : owners.path(folder);
    }

    private Mark shape(int slot, int stored, int count) {
        String wanted = "a stream extension, a name entry for each 15 characters, then only benign entries";
        if (stored < 2) {
            return fail("exfat.set-shape", slot, 1, 1, Outcome.failed("SecondaryCount " + stored, "at least 2"));
        }
        if (count < 1 + stored) {
            boolean beyond = slot + count >= directory.slots();
            return fail("exfat.set-shape", beyond ? slot : slot + count, beyond ? 1 : 0, 1, Outcome.failed("SecondaryCount " + stored + ", but "
                    + (count - 1) + " entries follow", wanted));
        }
        if (directory.u8(slot + 1, 0) != 0xC0) {
            return fail("exfat.set-shape", slot + 1, 0, 1, Outcome.failed("an entry " + Text.hex(directory.u8(slot + 1, 0), 2)
                    + " after the file entry", wanted));
        }
        int names = set.nameEntries();
        for (int i = 2; i < count; i++) {
            int type = directory.u8(slot + i, 0);
            boolean fits = i < 2 + names ? type == 0xC1 : (type & 0x20) != 0;
            if (!fits) {
                return fail("exfat.set-shape", slot + i, 0, 1, Outcome.failed("an entry " + Text.hex(type, 2) + " as number " + i, wanted));
            }
        }
        return names > count - 2 ? fail("exfat.set-shape", slot, 1, 1, Outcome.failed((count - 2) + " name entries for "
                + set.nameLength() + " characters", wanted)) : null;
    }

    private void afterEnd(int end) {
        byte[] bytes = directory.bytes();
        for (int i = (end + 1) * Directory.SLOT; i < directory.slots() * Directory.SLOT; i += Directory.SLOT) {
            int slot = i / Directory.SLOT;
            if (bytes[i] != 0 && directory.isRead(slot)) {
                fail("exfat.nothing-after-end", slot, 0, 1, Outcome.failed("an entry " + Text.hex(bytes[i] & 0xFF, 2), "entries of type 00"));
                return;
            }
        }
        if (directory.nextUnread(end + 1) < directory.slots()) {
            tally.unread("exfat.nothing-after-end", directory.missing(end + 1, directory.slots() - end - 1));
        }
    }

    private Mark fail(String rule, int slot, int at, int length, Outcome outcome) {
        ByteRange whole = directory.where(slot, 0, Directory.SLOT);
        return tally.fail(rule, whole, directory.where(slot, at, length), outcome.with("path", owners.path(folder)));
    }
}
