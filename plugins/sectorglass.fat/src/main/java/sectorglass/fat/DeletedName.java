package sectorglass.fat;

import java.util.Arrays;

/**
 * What is left of the name of a deleted entry. The first character of the short name is gone; where parts of a long name stand before it,
 * their checksum gives it back: exactly one byte fits, since each step of the sum can be undone.
 *
 * @param text the long name, or the short one with "?" in place of a first character that is not known
 * @param certain whether nothing of it is a guess
 */
record DeletedName(String text, boolean certain) {

    private static final int[] CHARACTERS = {1, 3, 5, 7, 9, 14, 16, 18, 20, 22, 24, 28, 30};

    static DeletedName of(Directory directory, int slot) {
        byte[] name = Arrays.copyOfRange(directory.bytes(), slot * Directory.SLOT, slot * Directory.SLOT + 11);
        StringBuilder text = new StringBuilder();
        int checksum = -1;
        boolean ended = false;
        for (int at = slot - 1; at >= 0 && slot - at <= LongName.MOST_PARTS && !ended && part(directory, at, checksum); at--) {
            checksum = directory.u8(at, 13);
            for (int offset : CHARACTERS) {
                int c = directory.u16(at, offset);
                ended |= c == 0;
                if (!ended) {
                    text.append((char) c);
                }
            }
        }
        int first = checksum < 0 ? -1 : first(name, checksum);
        if (first > 0x20) {
            name[0] = (byte) first;
            if (!text.isEmpty() && ShortName.illegal(name, 0) < 0) {
                return new DeletedName(text.toString(), true);
            }
        }
        name[0] = '?';
        return new DeletedName(ShortName.text(name, 0, directory.u8(slot, 12)), false);
    }

    private static boolean part(Directory directory, int slot, int checksum) {
        return directory.isRead(slot) && directory.u8(slot, 0) == 0xE5 && (directory.u8(slot, 11) & 0x3F) == 0x0F
                && (checksum < 0 || directory.u8(slot, 13) == checksum);
    }

    /** The only first byte that gives the checksum. */
    private static int first(byte[] name, int checksum) {
        byte[] trial = name.clone();
        for (int c = 0; c < 256; c++) {
            trial[0] = (byte) c;
            if (ShortName.checksum(trial, 0) == checksum) {
                return c;
            }
        }
        return -1;
    }
}
