package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;
import java.util.zip.CRC32;

/** Faults of a GPT and of its protective MBR (UEFI 2.10, sections 5.2.3 and 5.3). */
final class GptFaults {
    private static final int HEADER = 92;
    private static final int ENTRY = 128;
    private static final int ARRAY = 128 * ENTRY;

    private GptFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("gpt.header.signature", "primary", 1, "primary", site -> site.flip(primary(site) + site.below(8), 0x20)),
                kind("gpt.header.signature", "backup", 2, "backup", site -> site.flip(backup(site) + site.below(8), 0x20)),
                kind("gpt.header.crc32", "primary", 1, "primary", site -> crc(site, primary(site))),
                kind("gpt.header.crc32", "backup", 2, "backup", site -> crc(site, backup(site))),
                kind("gpt.header.my-lba", "", 3, "primary", site -> header(site, 24, 8, 2 + site.below(40))),
                kind("gpt.header.alternate-lba", "", 3, "primary", site -> header(site, 32, 8, last(site) - 1 - site.below(3000))),
                kind("gpt.header.revision", "", 3, "primary", site -> header(site, 8, 4, 0x00020000)),
                kind("gpt.header.reserved", "", 3, "primary", site -> site.put(primary(site) + HEADER + site.below(400), 1, site.someByte())),
                kind("gpt.copies-equal", "", 3, "backup", GptFaults::copies),
                kind("gpt.entries.crc32", "primary", 2, "primary", site -> site.flip(name(site, false), 0x01)),
                kind("gpt.entries.crc32", "backup", 3, "backup", site -> site.flip(name(site, true), 0x01)),
                kind("gpt.entry.unique-guid", "", 4, "", GptFaults::uniqueGuid),
                kind("gpt.entry.attributes", "", 4, "", site -> both(site, site.below(used(site)) * ENTRY + 48 + 1 + site.below(4), 1, site.someByte())),
                kind("gpt.entry.name", "", 4, "", site -> both(site, site.below(used(site)) * ENTRY + 56 + 60, 2, 'A' + site.below(26))),
                kind("gpt.entry.erased", "", 4, "", site -> both(site, (used(site) + site.below(20)) * ENTRY + 32, 8, 2048L + site.below(10_000))),
                kind("gpt.entry.overlap", "", 4, "", GptFaults::overlap),
                kind("gpt.protective-mbr", "", 2, "protective", GptFaults::protective),
                kind("gpt.protective-fields", "", 3, "protective", site -> site.put(446, 1, 0x80)));
    }

    private static FaultKind kind(String check, String variant, int level, String zone, FaultKind.Planting planting) {
        return new FaultKind(variant.isEmpty() ? check : check + " " + variant, check, level, Area.GPT, zone, planting);
    }

    private static long primary(Site site) {
        return site.sectorSize();
    }

    private static long last(Site site) {
        return site.made().description().sectors() - 1;
    }

    private static long backup(Site site) {
        return last(site) * site.sectorSize();
    }

    private static long array(Site site, boolean backup) {
        return (backup ? last(site) - ARRAY / site.sectorSize() : 2) * site.sectorSize();
    }

    private static int used(Site site) {
        return site.made().description().partitions().size();
    }

    /** First letter of the name of some partition. */
    private static long name(Site site, boolean backup) {
        int index = site.below(used(site));
        site.seenAt((backup ? backup(site) : primary(site)) + 88, 4);
        return array(site, backup) + (long) index * ENTRY + 56;
    }

    /** A byte of DiskGUID; the check points at the checksum. */
    private static void crc(Site site, long header) throws IOException {
        site.flip(header + 56 + site.below(16), 1 << site.below(8)).seenAt(header + 16, 4);
    }

    private static void header(Site site, int offset, int width, long value) throws IOException {
        site.put(primary(site) + offset, width, value);
        sum(site, primary(site));
    }

    private static void copies(Site site) throws IOException {
        site.put(backup(site) + 40, 8, 35 + site.below(2000));
        sum(site, backup(site));
    }

    private static void sum(Site site, long header) throws IOException {
        byte[] bytes = site.read(header, HEADER);
        for (int i = 16; i < 20; i++) {
            bytes[i] = 0;
        }
        CRC32 crc = new CRC32();
        crc.update(bytes);
        site.quietly(header + 16, 4, crc.getValue());
    }

    /** Changes both arrays in the same way and makes all checksums hold again. */
    private static void both(Site site, int offset, int width, long value) throws IOException {
        for (boolean backup : new boolean[] {false, true}) {
            site.put(array(site, backup) + offset, width, value);
        }
        sums(site);
    }

    private static void sums(Site site) throws IOException {
        for (boolean backup : new boolean[] {false, true}) {
            CRC32 crc = new CRC32();
            crc.update(site.read(array(site, backup), ARRAY));
            long header = backup ? backup(site) : primary(site);
            site.quietly(header + 88, 4, crc.getValue());
            sum(site, header);
        }
    }

    private static void uniqueGuid(Site site) throws IOException {
        int second = 1 + site.below(Math.max(1, used(site) - 1));
        if (second >= used(site)) {
            throw new FaultKind.NoPlaceException("one partition only");
        }
        int first = site.below(second);
        for (boolean backup : new boolean[] {false, true}) {
            site.put(array(site, backup) + (long) second * ENTRY + 16, site.read(array(site, backup) + (long) first * ENTRY + 16, 16));
        }
        sums(site);
    }

    /** One partition ends in the next one. */
    private static void overlap(Site site) throws IOException {
        int first = site.below(Math.max(1, used(site) - 1));
        if (first + 1 >= used(site)) {
            throw new FaultKind.NoPlaceException("one partition only");
        }
        long next = site.made().description().partitions().get(first + 1).firstLba();
        both(site, first * ENTRY + 40, 8, next + 40 + site.below(1000));
        site.seenAt(array(site, false) + (long) (first + 1) * ENTRY + 32, 16);
    }

    /** The protective slot does not cover the disk, or begins too late. */
    private static void protective(Site site) throws IOException {
        if (site.below(2) == 0) {
            site.put(446 + 12, 4, last(site) / 2 - site.below(1000));
        } else {
            site.put(446 + 8, 4, 2 + site.below(60));
        }
    }
}
