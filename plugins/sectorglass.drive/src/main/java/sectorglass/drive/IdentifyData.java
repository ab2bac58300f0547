package sectorglass.drive;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.DriveIdentity;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/** IDENTIFY DEVICE data: 256 little-endian words (T13/2132-D, 3.3.10; Linux include/linux/ata.h). */
record IdentifyData(Window data) {
    static final int SERIAL = 10;
    static final int SERIAL_WORDS = 10;
    static final int FIRMWARE = 23;
    static final int FIRMWARE_WORDS = 4;
    static final int MODEL = 27;
    static final int MODEL_WORDS = 20;
    static final int LBA28 = 60;
    static final int LBA48 = 100;
    static final int INTEGRITY = 255;
    static final long LBA28_MAX = 0x0FFFFFFFL;

    int word(int index) {
        return data.u16le(2 * index);
    }

    ByteRange where(int word, int words) {
        return data.range(2 * word, 2 * words);
    }

    boolean ata() {
        return (word(0) & 0x8000) == 0;
    }

    /** Characters in the order of the standard: the first one in the high byte. */
    String text(int word, int words) {
        StringBuilder text = new StringBuilder();
        for (int i = word; i < word + words; i++) {
            text.append((char) (word(i) >> 8)).append((char) (word(i) & 0xFF));
        }
        return text.toString();
    }

    /** The text trimmed, other than printable characters as a dot. */
    String shown(int word, int words) {
        return text(word, words).replaceAll("[^ -~]", ".").trim();
    }

    boolean lba48() {
        return (word(83) & 0xC000) == 0x4000 && (word(83) & 0x400) != 0;
    }

    long sectors28() {
        return data.u32le(2 * LBA28);
    }

    long sectors48() {
        return data.u64le(2 * LBA48);
    }

    long sectors() {
        return lba48() ? sectors48() : sectors28();
    }

    private boolean sizesValid() {
        return (word(106) & 0xC000) == 0x4000;
    }

    int sectorBytes() {
        if (sizesValid() && (word(106) & 0x1000) != 0) {
            long words = data.u32le(2 * 117);
            return words > 0 && words <= 1 << 16 ? (int) (2 * words) : 512;
        }
        return 512;
    }

    int physicalBytes() {
        return sizesValid() && (word(106) & 0x2000) != 0 ? sectorBytes() << (word(106) & 0xF) : sectorBytes();
    }

    /** Whether word 255 holds a checksum at all. */
    boolean hasChecksum() {
        return data.u8(2 * INTEGRITY) == 0xA5;
    }

    /** The checksum byte that makes the sum of all 512 bytes 0. */
    int checksum() {
        int sum = 0;
        for (int at = 0; at < 511; at++) {
            sum += data.u8(at);
        }
        return -sum & 0xFF;
    }

    DriveIdentity identity() {
        return new DriveIdentity(shown(MODEL, MODEL_WORDS), shown(SERIAL, SERIAL_WORDS), shown(FIRMWARE, FIRMWARE_WORDS), sectors(),
                sectorBytes(), physicalBytes(), facts());
    }

    private List<DriveIdentity.Fact> facts() {
        List<DriveIdentity.Fact> facts = new ArrayList<>();
        int rate = word(217);
        if (rate == 1) {
            facts.add(new DriveIdentity.Fact("medium", "does not rotate"));
        } else if (rate > 0x400 && rate < 0xFFFF) {
            facts.add(new DriveIdentity.Fact("medium", rate + " rotations per minute"));
        }
        if ((word(87) & 0xC000) == 0x4000 && (word(85) & 0x400) != 0) {
            facts.add(new DriveIdentity.Fact("host protected area", "on: the drive may report fewer sectors than it has"));
        } else if ((word(82) & 0x400) != 0 && word(82) != 0xFFFF) {
            facts.add(new DriveIdentity.Fact("host protected area", "supported, not on"));
        }
        int security = word(128);
        if ((security & 1) != 0) {
            facts.add(new DriveIdentity.Fact("security", (security & 4) != 0 ? "locked" : (security & 2) != 0 ? "enabled" : "supported, not enabled"));
        }
        if ((word(108) >> 12) == 5) {
            facts.add(new DriveIdentity.Fact("world wide name", String.format(Locale.ROOT, "%04x%04x%04x%04x", word(108), word(109),
                    word(110), word(111))));
        }
        if ((word(209) & 0xC000) == 0x4000 && (word(209) & 0x3FFF) != 0) {
            facts.add(new DriveIdentity.Fact("alignment", "logical sector 0 lies " + (word(209) & 0x3FFF) + " sectors into its physical sector"));
        }
        return List.copyOf(facts);
    }
}
