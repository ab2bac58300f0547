package sectorglass.fat;

/** The name of an entry: its long name where that is whole and belongs to it, else its short name. */
final class Names {

    private Names() {
    }

    static String at(Directory directory, int slot) {
        LongName name = new LongName();
        int first = slot;
        while (first > 0 && slot - first < LongName.MOST_PARTS && directory.isRead(first - 1)
                && directory.u8(first - 1, 0) != 0xE5 && (directory.u8(first - 1, 11) & 0x3F) == 0x0F) {
            first--;
            if ((directory.u8(first, 0) & 0x40) != 0) {
                break;
            }
        }
        for (int at = first; at < slot; at++) {
            if (!name.fits(directory, at)) {
                return shortName(directory, slot);
            }
            if ((directory.u8(at, 0) & 0x40) != 0) {
                name.begin(directory, at);
            } else {
                name.add(directory, at);
            }
        }
        boolean whole = name.begun() && name.next() == 0
                && ShortName.checksum(directory.bytes(), slot * Directory.SLOT) == name.checksum();
        return whole ? name.text() : shortName(directory, slot);
    }

    static String shortName(Directory directory, int slot) {
        return ShortName.text(directory.bytes(), slot * Directory.SLOT, directory.u8(slot, 12));
    }
}
