package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/** Faults of file records of NTFS and of the blocks of a folder (Linux kernel fs/ntfs3/ntfs.h, MFT_REC, ATTRIB, INDEX_BUFFER). */
final class NtfsRecordFaults {
    static final int NAME = 0x30;
    static final int DATA = 0x80;

    private NtfsRecordFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("ntfs.record.fixup", 3, site -> site.flip(record(site) + 1022, site.someByte())),
                kind("ntfs.record.signature", 3, site -> site.put(record(site), (byte) 'B', (byte) 'A', (byte) 'A', (byte) 'D')),
                kind("ntfs.record.number-position", 3, NtfsRecordFaults::number),
                kind("ntfs.record.sizes", 3, site -> site.put(record(site) + 0x18, 4, 1025 + site.below(30_000))),
                kind("ntfs.record.flags-bitmap", 4, NtfsRecordFaults::flags),
                kind("ntfs.attribute.walk", 4, site -> site.put(first(site, record(site)) + 4, 4, site.below(8))),
                kind("ntfs.attribute.id", 4, site -> {
                    long record = record(site);
                    site.put(attribute(site, record, DATA) + 14, 2, 0);
                }),
                kind("ntfs.link-count", 3, site -> site.put(record(site) + 0x12, 2, 2 + site.below(5))),
                kind("ntfs.time-plausible", 3, site -> site.put(value(site, record(site), 0x10) + 7, 1, 0x03)),
                kind("ntfs.sizes-consistent", 4, NtfsRecordFaults::sizes),
                kind("ntfs.parent-reference", 5, NtfsRecordFaults::parent),
                new FaultKind("ntfs.index.fixup", "ntfs.index.fixup", 4, Area.NTFS, "folder", site -> {
                    long block = block(site);
                    site.flip(block + 512L * (1 + site.below(8)) - 2, site.someByte());
                }),
                new FaultKind("ntfs.index.block", "ntfs.index.block", 4, Area.NTFS, "folder", site -> site.put(block(site) + 0x10, 8, 77 + site.below(400))),
                new FaultKind("ntfs.index.sizes", "ntfs.index.sizes", 5, Area.NTFS, "folder", NtfsRecordFaults::indexSize));
    }

    /** Records of two files are two zones in truth, but one fault of a file at a time is easier to judge. */
    private static FaultKind kind(String check, int level, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.NTFS, "files", planting);
    }

    private static Site.Entry victim(Site site) {
        return site.pick(site.entries(e -> !e.folder() && e.place().runs().size() == 1), "a file");
    }

    private static long record(Site site) {
        return victim(site).place().entryByte();
    }

    private static long first(Site site, long record) throws IOException {
        return record + site.number(record + 0x14, 2);
    }

    /** Byte of the first attribute of a type. */
    static long attribute(Site site, long record, int type) throws IOException {
        long at = first(site, record);
        for (int i = 0; i < 16; i++) {
            if (site.number(at, 4) == type) {
                return at;
            }
            at += site.number(at + 4, 4);
        }
        throw new FaultKind.NoPlaceException("no attribute " + type);
    }

    /** Byte of the value of a resident attribute. */
    static long value(Site site, long record, int type) throws IOException {
        long attribute = attribute(site, record, type);
        return attribute + site.number(attribute + 0x14, 2);
    }

    private static void number(Site site) throws IOException {
        long record = record(site);
        site.put(record + 0x2C, 4, site.number(record + 0x2C, 4) + 100 + site.below(1000));
    }

    /** The bitmap of $MFT calls a record free that is in use. */
    private static void flags(Site site) throws IOException {
        Site.Entry file = victim(site);
        long number = file.place().record();
        site.flip(site.place("record bitmap") + number / 8, 1 << number % 8).seenAt(file.place().entryByte() + 0x16, 2);
    }

    private static void sizes(Site site) throws IOException {
        long attribute = attribute(site, record(site), DATA);
        site.put(attribute + 0x30, 8, site.number(attribute + 0x28, 8) + 1 + site.below(1_000_000)).seenAt(attribute + 0x28, 24);
    }

    private static void parent(Site site) throws IOException {
        long name = value(site, record(site), NAME);
        site.put(name, 6, 900 + site.below(100)).seenAt(name, 8);
    }

    /** Byte of the first index block of a folder that has one. */
    private static long block(Site site) {
        return site.pick(site.entries(e -> e.folder() && !e.place().runs().isEmpty()), "a folder with index blocks").place().runs().get(0).firstByte();
    }

    private static void indexSize(Site site) throws IOException {
        long block = block(site);
        long entry = block + 0x18 + site.number(block + 0x18, 4);
        int skip = site.below(4);
        for (int i = 0; i < skip && (site.number(entry + 12, 2) & 2) == 0; i++) {
            entry += site.number(entry + 8, 2);
        }
        if ((site.number(entry + 12, 2) & 2) != 0 || entry - block > 480) {
            throw new FaultKind.NoPlaceException("no entry");
        }
        site.put(entry + 0x40, 8, site.number(entry + 0x40, 8) + 1 + site.below(50)).seenAt(entry + 0x38, 16);
    }
}
