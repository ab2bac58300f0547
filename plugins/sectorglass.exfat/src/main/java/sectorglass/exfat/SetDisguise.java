package sectorglass.exfat;

import java.util.Arrays;

import sectorglass.disk.copy.Disguise;

/** Replaces names in the slots of a folder; checksums and hashes are right or wrong as they were (sections 6.3.3 and 7.6.4). */
final class SetDisguise {
    private final Disguise names;
    private final Upcase upcase;
    private byte[] b;

    SetDisguise(Disguise disguise, Upcase upcase) {
        names = disguise;
        this.upcase = upcase;
    }

    /**
     * The slots with invented names.
     *
     * @param root whether entries that only the root directory has are kept
     */
    byte[] disguised(Directory directory, boolean root) {
        int bytes = directory.slots() * Directory.SLOT;
        b = Arrays.copyOf(directory.bytes(), bytes);
        EntrySet set = new EntrySet();
        boolean ended = false;
        int claimed = 0;
        for (int slot = 0; slot < directory.slots(); slot++) {
            int at = slot * Directory.SLOT;
            if (!directory.isRead(slot)) {
                continue;
            }
            int type = b[at] & 0xFF;
            ended |= type == 0;
            if (ended) {
                zero(at + 1, at + Directory.SLOT);
            } else if (type == 0x85 && TreeScan.take(directory, slot, set)) {
                set(directory, slot, set);
                claimed = slot + set.count();
            } else if (type == 0x83 || type == 0x03) {
                label(at);
            } else if (slot >= claimed) {
                alone(at, type, root);
            }
        }
        return b;
    }

    private void zero(int from, int to) {
        Arrays.fill(b, from, to, (byte) 0);
    }

    private void label(int at) {
        int units = Math.min(11, b[at + 1] & 0xFF);
        char[] text = new char[units];
        for (int i = 0; i < units; i++) {
            text[i] = (char) (b[at + 2 + 2 * i] & 0xFF | (b[at + 3 + 2 * i] & 0xFF) << 8);
        }
        put(at + 2, names.label(new String(text)), 0, units);
        zero(at + 2 + 2 * units, at + 24);
    }

    private void put(int at, String text, int from, int count) {
        for (int i = 0; i < count; i++) {
            char c = from + i < text.length() ? text.charAt(from + i) : 0;
            b[at + 2 * i] = (byte) c;
            b[at + 2 * i + 1] = (byte) (c >> 8);
        }
    }

    /** An entry outside a set in use: deleted ones, and such as are not known. */
    private void alone(int at, int type, boolean root) {
        switch (type & 0x7F) {
            case 0x01, 0x02 -> {
                if (!root) {
                    zero(at + 2, at + Directory.SLOT);
                }
            }
            default -> zero(at + 2, at + Directory.SLOT);
        }
    }

    private void set(Directory directory, int slot, EntrySet set) {
        int at = slot * Directory.SLOT;
        int length = set.count() * Directory.SLOT;
        int wrongSum = set.storedChecksum() ^ SetSum.of(directory.bytes(), at, set.count(), 0);
        int nameBytes = set.nameLength() * 2;
        int oldHash = NameScan.hash(directory.bytes(), (slot + 2) * Directory.SLOT, set.nameLength(), upcase);
        String fresh = names.name(set.name());
        int done = 0;
        for (int entry = 2; entry < set.count(); entry++) {
            int e = at + entry * Directory.SLOT;
            if ((b[e] & 0xFF) == 0xC1) {
                int count = Math.max(0, Math.min(EntrySet.NAME_CHARACTERS, nameBytes / 2 - done));
                put(e + 2, fresh, done, count);
                zero(e + 2 + 2 * count, e + Directory.SLOT);
                done += count;
            } else {
                zero(e + 2, e + Directory.SLOT);
            }
        }
        int newHash = NameScan.hash(b, (slot + 2) * Directory.SLOT, set.nameLength(), upcase);
        if (oldHash >= 0 && newHash >= 0 && done == set.nameLength()) {
            u16(at + Directory.SLOT + EntrySet.NAME_HASH, set.nameHash() ^ oldHash ^ newHash);
        }
        u16(at + 2, SetSum.of(Arrays.copyOfRange(b, at, at + length), 0, set.count(), 0) ^ wrongSum);
    }

    private void u16(int at, int value) {
        b[at] = (byte) value;
        b[at + 1] = (byte) (value >> 8);
    }
}
