package sectorglass.fat;

import java.util.Arrays;

import sectorglass.image.ByteRange;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/** The rules of one 8.3 slot that need nothing beside it: name, attributes, dates. Source: Microsoft FAT specification. */
final class SlotCheck {

    private final Tally tally;
    private final boolean wide;
    private Directory directory;
    private Mark cause;
    /** The slot whose first odd date was reported: its other dates follow from the same damage. */
    private int datedSlot = -1;
    private Mark datedMark;

    SlotCheck(Tally tally, FatKind kind) {
        this.tally = tally;
        this.wide = kind == FatKind.FAT32;
    }

    /** @param mark why everything in this directory is doubtful, or null */
    void begin(Directory slots, Mark mark) {
        directory = slots;
        cause = mark;
        datedSlot = -1;
    }

    /** @param path gives the name for findings; only asked for where there is one */
    void check(int slot, java.util.function.Supplier<String> path) {
        int illegal = ShortName.illegal(directory.bytes(), slot * Directory.SLOT);
        if (illegal >= 0) {
            fail("fat.name-legal", slot, illegal, 1, Outcome.failed("byte " + Text.hex(directory.u8(slot, illegal), 2),
                    "capitals, digits, and signs of the short name"), path);
        }
        int attributes = directory.u8(slot, 11);
        if ((attributes & 0xC0) != 0 || (attributes & 0x18) == 0x18) {
            fail("fat.attribute-legal", slot, 11, 1, Outcome.failed(Text.hex(attributes, 2), (attributes & 0xC0) != 0
                    ? "bits 6 and 7 must be 0" : "label and directory exclude each other"), path);
        }
        if (!wide && directory.u16(slot, 20) != 0) {
            fail("fat.high-word-zero", slot, 20, 2, Outcome.failed(Text.hex(directory.u16(slot, 20), 4), "0"), path);
        }
        if (directory.u8(slot, 13) > 199) {
            date(slot, 13, 1, "created, hundredths", directory.u8(slot, 13), "0 to 199", path);
        }
        moment(slot, 16, 14, "created", path);
        moment(slot, 18, -1, "accessed", path);
        moment(slot, 24, 22, "written", path);
    }

    private void moment(int slot, int dateAt, int timeAt, String field, java.util.function.Supplier<String> path) {
        int date = directory.u16(slot, dateAt);
        if (date != 0 && !legalDate(date)) {
            date(slot, dateAt, 2, field + " date", Text.hex(date, 4) + " (" + (1980 + (date >> 9)) + "-" + (date >> 5 & 15) + "-"
                    + (date & 31) + ")", "month 1 to 12, a day of that month", path);
        }
        int time = timeAt < 0 ? 0 : directory.u16(slot, timeAt);
        if (time >> 11 > 23 || (time >> 5 & 63) > 59 || (time & 31) > 29) {
            date(slot, timeAt, 2, field + " time", Text.hex(time, 4), "hour to 23, minute to 59, second to 58", path);
        }
    }

    private static boolean legalDate(int date) {
        int month = date >> 5 & 15;
        int day = date & 31;
        return month >= 1 && month <= 12 && day >= 1 && (day <= 28
                || day <= java.time.YearMonth.of(1980 + (date >> 9), month).lengthOfMonth());
    }

    private void date(int slot, int at, int length, String field, Object stored, String legal, java.util.function.Supplier<String> path) {
        fail("fat.date-legal", slot, at, length, Outcome.failed(stored, legal).with("field", field), path);
    }

    private void fail(String rule, int slot, int at, int length, Outcome outcome, java.util.function.Supplier<String> path) {
        ByteRange whole = directory.where(slot, 0, Directory.SLOT);
        Mark mark = tally.fail(rule, whole, directory.where(slot, at, length), outcome.with("path", path.get())
                .because(cause != null ? cause : rule.equals("fat.date-legal") && slot == datedSlot ? datedMark : null));
        if (rule.equals("fat.date-legal") && slot != datedSlot) {
            datedSlot = slot;
            datedMark = mark;
        }
    }

    /** Whether the slots could be those of a directory: of the first ones in use, most have legal names and attributes. */
    static boolean plausible(Directory directory) {
        int seen = 0;
        int odd = 0;
        for (int slot = 0; slot < Math.min(16, directory.slots()); slot++) {
            if (!directory.isRead(slot) || directory.u8(slot, 0) == 0xE5) {
                continue;
            }
            if (directory.u8(slot, 0) == 0) {
                break;
            }
            seen++;
            int attributes = directory.u8(slot, 11);
            byte[] name = Arrays.copyOfRange(directory.bytes(), slot * Directory.SLOT, slot * Directory.SLOT + 11);
            boolean dot = name[0] == '.';
            odd += (attributes & 0xC0) != 0 || (attributes & 0x3F) != 0x0F && !dot && ShortName.illegal(name, 0) >= 0 ? 1 : 0;
        }
        return odd * 2 <= seen;
    }
}
