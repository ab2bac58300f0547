package sectorglass.fat;

/**
 * The long name before an 8.3 entry, put together slot by slot. Source: Microsoft FAT specification, "Long File Name Implementation":
 * slots count down to 1, 40 is added in the first one, each holds 13 characters and the checksum of the 8.3 name.
 */
final class LongName {

    /** Most parts of a name. */
    static final int MOST_PARTS = 20;
    private static final int[] CHARACTERS = {1, 3, 5, 7, 9, 14, 16, 18, 20, 22, 24, 28, 30};

    private static final long SEED = 1125899906842597L;

    private final char[] name = new char[MOST_PARTS * CHARACTERS.length];
    private int firstSlot = -1;
    private int parts;
    private int next;
    private int checksum;

    /** Forgets what was begun. */
    void clear() {
        firstSlot = -1;
        next = 0;
        parts = 0;
    }

    /** Whether slots of a name were met and no 8.3 entry after them yet. */
    boolean begun() {
        return firstSlot >= 0;
    }

    /** First slot of the name. */
    int firstSlot() {
        return firstSlot;
    }

    /** Number of the part that must come next; 0 where the name is whole. */
    int next() {
        return next;
    }

    int checksum() {
        return checksum;
    }

    int parts() {
        return parts;
    }

    /** Whether the slot is the part that must come next, or begins a name. */
    boolean fits(Directory directory, int slot) {
        int order = directory.u8(slot, 0);
        int number = order & 0x3F;
        if ((order & 0x40) != 0) {
            return number >= 1 && number <= MOST_PARTS;
        }
        return begun() && number == next && directory.u8(slot, 13) == checksum;
    }

    /** Begins a name with its last part. */
    void begin(Directory directory, int slot) {
        firstSlot = slot;
        parts = directory.u8(slot, 0) & 0x3F;
        next = parts;
        checksum = directory.u8(slot, 13);
        add(directory, slot);
    }

    /** Adds the next part. */
    void add(Directory directory, int slot) {
        int at = (next - 1) * CHARACTERS.length;
        byte[] bytes = directory.bytes();
        int base = slot * Directory.SLOT;
        for (int offset : CHARACTERS) {
            name[at++] = (char) (bytes[base + offset] & 0xFF | (bytes[base + offset + 1] & 0xFF) << 8);
        }
        next--;
    }

    /** Characters of the whole name, without what pads it. */
    int length() {
        int most = parts * CHARACTERS.length;
        for (int i = most - CHARACTERS.length; i < most; i++) {
            if (name[i] == 0) {
                return i;
            }
        }
        return most;
    }

    /** The name; only where {@link #next} is 0. */
    String text() {
        return new String(name, 0, length());
    }

    /** A hash of the name in capitals. */
    long hash() {
        long hash = SEED;
        int length = length();
        for (int i = 0; i < length; i++) {
            hash = 31 * hash + Character.toUpperCase(name[i]);
        }
        return hash;
    }

    /** The same of another name. */
    static long hash(String other) {
        long hash = SEED;
        for (int i = 0; i < other.length(); i++) {
            hash = 31 * hash + Character.toUpperCase(other.charAt(i));
        }
        return hash;
    }

    /** Index of the first character after the end mark that is not FFFF, or -1. */
    int oddPadding() {
        int most = parts * CHARACTERS.length;
        for (int i = length() + 1; i < most; i++) {
            if (name[i] != 0xFFFF) {
                return i;
            }
        }
        return -1;
    }

    /** Slot, and byte in it, of a character. */
    int[] placeOf(int index) {
        int part = index / CHARACTERS.length + 1;
        return new int[] {firstSlot + parts - part, CHARACTERS[index % CHARACTERS.length]};
    }

    char character(int index) {
        return name[index];
    }
}
