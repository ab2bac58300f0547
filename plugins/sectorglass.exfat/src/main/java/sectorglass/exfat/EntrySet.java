package sectorglass.exfat;

import sectorglass.image.ByteRange;

/**
 * A file's entries in a directory: file, stream extension, names. Set by {@link DirectoryCheck} as far as the entries are there; one
 * object is used again and again. Source: Microsoft exFAT specification, sections 6.3, 7.4, 7.6, 7.7.
 */
final class EntrySet {

    static final int STREAM_FLAGS = 1;      // in the stream extension, u1
    static final int NAME_LENGTH = 3;       // u1
    static final int NAME_HASH = 4;         // u2
    static final int VALID_LENGTH = 8;      // u8
    static final int FIRST_CLUSTER = 20;    // u4
    static final int DATA_LENGTH = 24;      // u8
    static final int NO_FAT_CHAIN = 2;      // bit of the stream flags
    static final int NAME_CHARACTERS = 15;  // in each name entry
    static final int MOST_CHARACTERS = 255;

    private Directory directory;
    private int slot;
    private int count;

    /**
     * Takes the set that begins at a slot, in use or deleted.
     *
     * @param entries number of entries from the file entry on that are taken as its set
     */
    void at(Directory in, int first, int entries) {
        directory = in;
        slot = first;
        count = entries;
    }

    Directory directory() {
        return directory;
    }

    int slot() {
        return slot;
    }

    int count() {
        return count;
    }

    /** SecondaryCount as stored. */
    int secondaries() {
        return directory.u8(slot, 1);
    }

    int attributes() {
        return directory.u16(slot, 4);
    }

    boolean folder() {
        return (attributes() & 0x10) != 0;
    }

    int streamFlags() {
        return directory.u8(slot + 1, STREAM_FLAGS);
    }

    boolean noFatChain() {
        return (streamFlags() & NO_FAT_CHAIN) != 0;
    }

    int nameLength() {
        return directory.u8(slot + 1, NAME_LENGTH);
    }

    int nameHash() {
        return directory.u16(slot + 1, NAME_HASH);
    }

    long validLength() {
        return directory.u64(slot + 1, VALID_LENGTH);
    }

    long firstCluster() {
        return directory.u32(slot + 1, FIRST_CLUSTER);
    }

    long dataLength() {
        return directory.u64(slot + 1, DATA_LENGTH);
    }

    /** Name entries that a name of that length takes. */
    int nameEntries() {
        return (nameLength() + NAME_CHARACTERS - 1) / NAME_CHARACTERS;
    }

    /** A character of the name; its entry must be there. */
    int character(int index) {
        return directory.u16(slot + 2 + index / NAME_CHARACTERS, 2 + 2 * (index % NAME_CHARACTERS));
    }

    /** The name as far as its entries are there and were read; parts that were not read are U+FFFD. */
    String name() {
        int length = Math.min(nameLength(), Math.max(0, count - 2) * NAME_CHARACTERS);
        StringBuilder name = new StringBuilder(length);
        for (int i = 0; i < length; i++) {
            name.append(directory.isRead(slot + 2 + i / NAME_CHARACTERS) ? (char) character(i) : '\uFFFD');
        }
        return name.toString();
    }

    /** The checksum of the set as stored in the file entry. */
    int storedChecksum() {
        return directory.u16(slot, 2);
    }

    /** The checksum of the entries, bytes 2 and 3 of the first left out. @param inUse whether bit 7 of each type is taken as set */
    int checksum(boolean inUse) {
        return SetSum.of(directory.bytes(), slot * Directory.SLOT, count, inUse ? 0x80 : 0);
    }

    ByteRange where(int entry, int offset, int length) {
        return directory.where(slot + entry, offset, length);
    }

    /** The image bytes of the whole set, as far as they stand together. */
    ByteRange range() {
        return directory.where(slot, 0, count * Directory.SLOT);
    }
}
