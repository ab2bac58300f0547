package sectorglass.fat;

import java.nio.charset.StandardCharsets;

import sectorglass.disk.copy.Disguise;

/** Replaces names in the slots of a folder. Names stay different where they were, checksums of long names right or wrong as they were. */
final class SlotDisguise {
    private static final int[] CHARACTERS = {1, 3, 5, 7, 9, 14, 16, 18, 20, 22, 24, 28, 30};
    private static final int LABEL = 0x08;

    private final Disguise names;
    private final Disguise shorts;
    private byte[] b;

    SlotDisguise(Disguise disguise) {
        names = disguise;
        shorts = disguise.ofBytes();
    }

    /** Notes long names and the two parts of short ones. */
    void learn(Directory directory) {
        for (int slot = 0; slot < directory.slots(); slot++) {
            if (!directory.isRead(slot) || directory.u8(slot, 0) == 0xE5 || directory.u8(slot, 0) == 0) {
                continue;
            }
            if ((directory.u8(slot, 11) & 0x3F) != 0x0F && (directory.u8(slot, 11) & LABEL) == 0 && directory.u8(slot, 0) != '.') {
                shorts.learn(part(directory.bytes(), slot * Directory.SLOT, 8));
                shorts.learn(part(directory.bytes(), slot * Directory.SLOT + 8, 3));
                String name = Names.at(directory, slot);
                if (!name.equals(Names.shortName(directory, slot))) {
                    names.learn(name);
                }
            }
        }
    }

    private static String part(byte[] bytes, int at, int length) {
        return new String(bytes, at, length, StandardCharsets.ISO_8859_1).stripTrailing();
    }

    /** The slots with invented names. */
    byte[] disguised(Directory directory) {
        b = directory.bytes().clone();
        byte[] old = directory.bytes();
        boolean ended = false;
        for (int slot = 0; slot < directory.slots(); slot++) {
            int at = slot * Directory.SLOT;
            if (!directory.isRead(slot)) {
                continue;
            }
            if (ended || b[at] == 0) {
                ended = true;
                behind(at);
                continue;
            }
            boolean deleted = (b[at] & 0xFF) == 0xE5;
            if ((b[at + 11] & 0x3F) == 0x0F) {
                units(at);
            } else if (deleted) {
                letters(at + 1, 10, at);
            } else if ((b[at + 11] & LABEL) != 0) {
                byte[] fresh = names.label(new String(b, at, 11, StandardCharsets.ISO_8859_1)).getBytes(StandardCharsets.ISO_8859_1);
                System.arraycopy(fresh, 0, b, at, 11);
            } else if (b[at] != '.') {
                shortPart(at, 8);
                shortPart(at + 8, 3);
                longName(directory, slot, old);
            }
        }
        return b;
    }

    /** What stands behind the end of a folder is no name any more; that something stands there is kept. */
    private void behind(int at) {
        boolean any = b[at] != 0;
        for (int i = 0; i < Directory.SLOT; i++) {
            b[at + i] = (byte) (any ? i < 11 ? 'X' : i == 11 ? b[at + i] : 0 : 0);
        }
    }

    /** Letters that say nothing in place of some bytes. */
    private void letters(int at, int length, long number) {
        byte[] fresh = names.letters(length, number).getBytes(StandardCharsets.US_ASCII);
        System.arraycopy(fresh, 0, b, at, length);
    }

    /** Units of a long name that belongs to nobody, its end mark and filling kept. */
    private void units(int at) {
        for (int i = 0; i < CHARACTERS.length; i++) {
            int unit = at + CHARACTERS[i];
            int value = b[unit] & 0xFF | (b[unit + 1] & 0xFF) << 8;
            if (value != 0 && value != 0xFFFF) {
                b[unit] = (byte) names.letters(1, at * 13L + i).charAt(0);
                b[unit + 1] = 0;
            }
        }
    }

    /** Illegal bytes stay where they are: they are a finding. */
    private void shortPart(int at, int length) {
        String old = part(b, at, length);
        byte[] fresh = shorts.name(old).getBytes(StandardCharsets.ISO_8859_1);
        for (int i = 0; i < old.length() && i < fresh.length; i++) {
            char c = old.charAt(i);
            boolean legal = c > 0x20 && "\"*+,./:;<=>?[\\]|".indexOf(c) < 0 && !(c >= 'a' && c <= 'z') || c >= 0x80;
            b[at + i] = legal ? fresh[i] : b[at + i];
        }
    }

    /** Puts the invented long name into the slots before an 8.3 entry, and the checksum of the new 8.3 name. */
    private void longName(Directory directory, int slot, byte[] old) {
        int was = ShortName.checksum(old, slot * Directory.SLOT);
        int now = ShortName.checksum(b, slot * Directory.SLOT);
        String text = Names.at(directory, slot);
        boolean whole = !text.equals(Names.shortName(directory, slot));
        String fresh = whole ? names.name(text) : null;
        int part = 0;
        for (int before = slot - 1; before >= 0 && slot - before <= LongName.MOST_PARTS && directory.isRead(before); before--) {
            int at = before * Directory.SLOT;
            if ((old[at + 11] & 0x3F) != 0x0F || (old[at] & 0xFF) == 0xE5) {
                return;
            }
            b[at + 13] = (byte) (now ^ was ^ old[at + 13]);
            for (int i = 0; whole && i < CHARACTERS.length && part * 13 + i < fresh.length(); i++) {
                char c = fresh.charAt(part * 13 + i);
                b[at + CHARACTERS[i]] = (byte) c;
                b[at + CHARACTERS[i] + 1] = (byte) (c >> 8);
            }
            part++;
            if ((old[at] & 0x40) != 0) {
                return;
            }
        }
    }
}
