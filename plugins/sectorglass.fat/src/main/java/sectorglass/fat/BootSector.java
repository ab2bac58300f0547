package sectorglass.fat;

import java.nio.charset.StandardCharsets;

import sectorglass.image.ByteRange;
import sectorglass.image.Window;

/**
 * The fields of a FAT boot sector over its 512 bytes. Source: Microsoft FAT specification (2005-08-30), "Boot Sector and BPB".
 * Offsets are in bytes from the start of the sector; integers are little-endian and unsigned. Getters throw
 * {@link sectorglass.image.UnreadException} where the sector was not read.
 *
 * @param window at least {@link #SIZE} bytes
 */
record BootSector(Window window) {

    /** All fields lie in the first 512 bytes, whatever the sector size. */
    static final int SIZE = 512;
    static final int JUMP = 0;                  // 3 bytes
    static final int OEM_NAME = 3;              // 8 bytes
    static final int BYTES_PER_SECTOR = 11;     // u2
    static final int SECTORS_PER_CLUSTER = 13;  // u1
    static final int RESERVED = 14;             // u2, sectors
    static final int FATS = 16;                 // u1
    static final int ROOT_ENTRIES = 17;         // u2, slots of 32 bytes
    static final int TOTAL16 = 19;              // u2, sectors
    static final int MEDIA = 21;                // u1
    static final int FAT_SIZE16 = 22;           // u2, sectors
    static final int HIDDEN = 28;               // u4, sectors
    static final int TOTAL32 = 32;              // u4, sectors
    static final int FAT_SIZE32 = 36;           // u4, sectors; FAT32
    static final int EXT_FLAGS = 40;            // u2; FAT32
    static final int VERSION = 42;              // u2; FAT32
    static final int ROOT_CLUSTER = 44;         // u4; FAT32
    static final int INFO_SECTOR = 48;          // u2; FAT32
    static final int BACKUP_SECTOR = 50;        // u2; FAT32
    static final int RESERVED32 = 52;           // 12 bytes; FAT32
    static final int SIGNATURE = 510;           // 55 AA

    int bytesPerSector() {
        return window.u16le(BYTES_PER_SECTOR);
    }

    int sectorsPerCluster() {
        return window.u8(SECTORS_PER_CLUSTER);
    }

    int reserved() {
        return window.u16le(RESERVED);
    }

    int fats() {
        return window.u8(FATS);
    }

    int rootEntries() {
        return window.u16le(ROOT_ENTRIES);
    }

    int total16() {
        return window.u16le(TOTAL16);
    }

    long total32() {
        return window.u32le(TOTAL32);
    }

    /** BPB_TotSec16, or BPB_TotSec32 where that is 0. */
    long totalSectors() {
        return total16() != 0 ? total16() : total32();
    }

    int media() {
        return window.u8(MEDIA);
    }

    int fatSize16() {
        return window.u16le(FAT_SIZE16);
    }

    long fatSize32() {
        return window.u32le(FAT_SIZE32);
    }

    /** Sectors per FAT: BPB_FATSz16, or BPB_FATSz32 where that is 0. */
    long fatSize() {
        return fatSize16() != 0 ? fatSize16() : fatSize32();
    }

    long hidden() {
        return window.u32le(HIDDEN);
    }

    /** Whether the FAT32 form of the sector applies; this is asked before the type is known, as Linux and fsck.fat do. */
    boolean form32() {
        return fatSize16() == 0 && fatSize32() != 0;
    }

    int extFlags() {
        return window.u16le(EXT_FLAGS);
    }

    /** Whether only one FAT is active (ExtFlags bit 7). */
    boolean oneActive() {
        return form32() && (extFlags() & 0x80) != 0;
    }

    /** Number of the active FAT where only one is. */
    int activeFat() {
        return oneActive() ? extFlags() & 0xF : 0;
    }

    int version() {
        return window.u16le(VERSION);
    }

    long rootCluster() {
        return window.u32le(ROOT_CLUSTER);
    }

    int infoSector() {
        return window.u16le(INFO_SECTOR);
    }

    int backupSector() {
        return window.u16le(BACKUP_SECTOR);
    }

    /** Offset of the state byte (BS_Reserved1), whose bit 0 says "not closed cleanly". */
    int stateAt() {
        return form32() ? 65 : 37;
    }

    /** Offset of BS_BootSig. */
    int bootSigAt() {
        return form32() ? 66 : 38;
    }

    /** Offset of BS_VolID. */
    int serialAt() {
        return form32() ? 67 : 39;
    }

    /** Offset of BS_VolLab, 11 bytes. */
    int labelAt() {
        return form32() ? 71 : 43;
    }

    /** Offset of BS_FilSysType, 8 bytes. */
    int typeTextAt() {
        return form32() ? 82 : 54;
    }

    /** The serial as XXXX-XXXX, or null where the sector has none. */
    String serial() {
        int sig = window.u8(bootSigAt());
        if (sig != 0x29 && sig != 0x28) {
            return null;
        }
        long id = window.u32le(serialAt());
        return String.format("%04X-%04X", id >> 16, id & 0xFFFF);
    }

    /** The label bytes as text without padding, or null where there is none ("NO NAME", no extended signature). */
    String label() {
        if (window.u8(bootSigAt()) != 0x29) {
            return null;
        }
        String text = ShortName.label(window.bytes(labelAt(), 11));
        return text == null || text.equals("NO NAME") ? null : text;
    }

    /** BS_FilSysType as it stands. */
    String typeText() {
        return window.text(typeTextAt(), 8, StandardCharsets.ISO_8859_1);
    }

    /** Whether 55 AA stands at byte 510. */
    boolean signed() {
        return window.matches(SIGNATURE, 0x55, 0xAA);
    }

    /** Whether the jump has one of the two usual forms. */
    boolean jumps() {
        int first = window.u8(JUMP);
        return first == 0xE9 || first == 0xEB && window.u8(2) == 0x90;
    }

    /** Whether bytes 3 to 10 name a file system that is not FAT: such a sector is never read as FAT. */
    boolean namesAnother() {
        String name = window.text(OEM_NAME, 8, StandardCharsets.ISO_8859_1);
        return name.equals("NTFS    ") || name.equals("EXFAT   ");
    }

    /** The image bytes of a field. */
    ByteRange at(int offset, int length) {
        return window.range(offset, length);
    }
}
