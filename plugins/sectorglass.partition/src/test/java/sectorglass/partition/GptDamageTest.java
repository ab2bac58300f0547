package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.junit.jupiter.api.Test;

import sectorglass.disk.MapEntry;
import sectorglass.disk.PartitionMap;
import sectorglass.verify.Finding;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/** Damage to a GPT, one cause each: one finding, with its id and byte. Rules of UEFI 2.10, section 5.3. */
class GptDamageTest {
    private static final long LAST = 131071 * 512L;
    private static final List<String> BOTH = List.of("2048+32768 c12a7328-f81f-11d2-ba4b-00a0c93ec93b",
            "34816+96223 0fc63daf-8483-4772-8e79-3d69d8477de4");

    private final Memory good = Samples.gpt(512);

    private static Look one(Memory image, String expected) {
        Look look = Look.at(image);
        assertEquals(List.of(expected), look.failed());
        return look;
    }

    @Test
    void soundTableHasNoFinding() {
        Look look = Look.at(good);
        assertEquals(List.of(), look.failed());
        assertEquals(BOTH, look.partitions());
        assertEquals(List.of("mbr 0 PRIMARY", "gpt 1 PRIMARY", "gpt 131071 BACKUP"),
                look.disk().maps().stream().map(f -> f.map().kind() + " " + f.map().lba() + " " + f.map().copy()).toList());
        assertEquals("01234567-89ab-cdef-0123-456789abcdef", look.disk().maps().get(1).map().id());
        MapEntry second = look.disk().partitions().get(1).entry();
        assertEquals("Datenträger", second.name());
        assertEquals("deadbeef-cafe-4bad-8f00-0123456789ab", second.uuid());
        assertTrue(second.active());
        assertEquals(MapEntry.Use.PROTECTIVE, look.disk().maps().get(0).map().entries().get(0).use());
        assertTrue(look.findings().counts().passed() > 40);
    }

    @Test
    void sectorsOf4096() {
        Look look = Look.at(Samples.gpt(4096));
        assertEquals(List.of(), look.failed());
        assertEquals(List.of("256+4096 " + Samples.EFI.toLowerCase(), "4352+12027 " + Samples.LINUX.toLowerCase()), look.partitions());
    }

    @Test
    void checksumVectors() {
        assertEquals(0xCBF43926L, Samples.crc32("123456789".getBytes()));
        assertEquals(0xAB54D286L, Samples.crc32(new byte[16384]));
        assertEquals(0x6607608EL, Samples.le(good, 512 + 88, 4));
        assertEquals(0xD41A15B7L, Samples.le(good, 512 + 16, 4));
        assertEquals(0x5A16D972L, Samples.le(good, LAST + 16, 4));
        Memory large = Samples.gpt(4096);
        assertEquals(0x665E56E0L, Samples.le(large, 4096 + 88, 4));
        assertEquals(0xBEA1F344L, Samples.le(large, 4096 + 16, 4));
        assertEquals(0x5E855D23L, Samples.le(large, 16383L * 4096 + 16, 4));
    }

    @Test
    void tailCut() {
        Look look = one(good.resize(63 * Samples.MIB), "gpt.header.alternate-lba@544");
        Finding finding = look.one("gpt.header.alternate-lba");
        assertEquals("131071", finding.stored());
        assertEquals("129023", finding.computed());
        assertTrue(finding.what().contains("shorter than the disk was"), finding.what());
        assertTrue(finding.what().contains("member of a set"), finding.what());
        assertEquals(4, finding.count());
        assertEquals(BOTH, look.partitions());
    }

    @Test
    void enlarged() {
        Look look = one(good.resize(80 * Samples.MIB), "gpt.header.alternate-lba@544");
        assertTrue(look.one("gpt.header.alternate-lba").what().contains("larger"));
        assertEquals(131071, look.disk().maps().get(2).map().lba());
    }

    @Test
    void primaryCopiedOverBackup() {
        Look look = one(good.put(LAST, good.get(512, 512)), "gpt.header.my-lba@" + (LAST + 24));
        Finding finding = look.one("gpt.header.my-lba");
        assertEquals("1", finding.stored());
        assertEquals("131071", finding.computed());
        assertEquals(Severity.UNUSABLE, finding.severity());
        assertTrue(finding.means().contains("other copy holds"), finding.means());
    }

    @Test
    void backupZeroed() {
        one(good.put(LAST, new byte[512]), "gpt.header.signature@" + LAST);
    }

    @Test
    void primaryZeroedLeavesTheBackup() {
        Look look = one(good.put(512, new byte[512]), "gpt.header.signature@512");
        assertEquals(BOTH, look.partitions());
        assertEquals(PartitionMap.Copy.BACKUP, look.disk().maps().get(look.disk().partitions().get(0).map()).map().copy());
    }

    @Test
    void entryEdited() {
        Look look = one(good.put(1080, 0x58), "gpt.entries.crc32@600");
        Finding finding = look.one("gpt.entries.crc32");
        assertEquals("6607608E", finding.stored());
        assertEquals("2AF9CF66", finding.computed());
        assertTrue(finding.means().contains("number 1"), finding.means());
    }

    @Test
    void headerFieldEdited() {
        Look look = one(good.put(568, 0x66), "gpt.header.crc32@528");
        assertEquals("416AC122", look.one("gpt.header.crc32").computed());
        assertEquals(BOTH, look.partitions());
    }

    @Test
    void protectiveMbrZeroed() {
        Look look = one(good.put(0, new byte[512]), "gpt.protective-mbr@446");
        assertEquals(BOTH, look.partitions());
    }

    @Test
    void overlapWithGoodChecksums() {
        Memory overlapping = good.u64(1024 + 128 + 32, 30000).u64(131039 * 512L + 128 + 32, 30000);
        Look look = one(Samples.crcs(overlapping), "gpt.entry.overlap@" + (1024 + 128 + 32));
        assertEquals(2, look.one("gpt.entry.overlap").count());
    }

    @Test
    void entriesEditedAndArrayChecksumFixed() {
        Memory edited = good.put(1080, 0x58);
        Look look = Look.at(edited.u32(600, Samples.crc32(edited.get(1024, 16384))));
        assertEquals(List.of("gpt.header.crc32@528"), look.failed());
        assertTrue(look.of("gpt.entries.crc32").stream().allMatch(f -> f.verdict() == Verdict.PASSED));
    }

    @Test
    void hybridIsReported() {
        Memory hybrid = good.put(462, Samples.hex("80 20 21 00 0C 2A 2B 02 00 08 00 00 00 80 00 00"));
        Look look = Look.at(hybrid);
        assertTrue(look.failed().contains("gpt.hybrid@462"), look.failed().toString());
        assertEquals(List.of(), look.serious());
        assertEquals(BOTH, look.partitions());
        assertEquals(MapEntry.Use.REPEAT, look.disk().maps().get(0).map().entries().get(1).use());
        assertEquals(List.of("gpt.hybrid-entry@470"), Look.at(hybrid.u32(470, 4096)).serious());
    }

    @Test
    void protectiveFillerSizeIsAccepted() {
        assertEquals(List.of(), Look.at(good.u32(458, 0xFFFFFFFFL)).serious());
        assertEquals(List.of("gpt.protective-mbr@458"), Look.at(good.u32(458, 100)).serious());
    }

    @Test
    void leftoverUnderAnotherTable() {
        Memory other = good.put(446, Samples.hex("00 20 21 00 83 FE FF FF 00 08 00 00 00 00 01 00"));
        Look look = Look.at(other);
        assertEquals(List.of("2048+65536 83"), look.partitions());
        assertTrue(look.disk().maps().stream().filter(f -> f.map().kind().equals("gpt")).allMatch(f -> f.map().leftover()));
        assertEquals(List.of("gpt.leftover@512", "gpt.leftover@" + LAST), look.serious());
        Look lone = Look.at(other.put(512, new byte[512]));
        assertEquals(List.of("gpt.leftover@" + LAST), lone.serious());
    }

    @Test
    void backupOfAnotherDiskIsALeftover() {
        Memory other = Samples.crc(good.put(LAST + 56, 0x99), 131071);
        Look look = Look.at(other);
        assertEquals(List.of("gpt.leftover@" + LAST), look.serious());
        assertTrue(look.disk().maps().get(2).map().leftover());
    }

    @Test
    void staleBackupAfterTheTableMoved() {
        Memory larger = good.resize(80 * Samples.MIB).put(163839 * 512L, good.get(LAST, 512));
        Look look = Look.at(larger);
        PartitionMap stray = look.disk().maps().get(3).map();
        assertEquals(163839, stray.lba());
        assertTrue(stray.leftover());
        assertNotNull(stray.remark());
    }

    @Test
    void protectiveMbrAlone() {
        Memory alone = Memory.zeros(64 * Samples.MIB, 512).put(0, good.get(0, 512));
        one(alone, "gpt.header.signature@512");
    }

    @Test
    void wrongSectorSize() {
        Look large = Look.at(Samples.gpt(4096).sectorSize(512));
        assertEquals(List.of("gpt.sector-size@4096"), large.serious());
        Look small = Look.at(good.sectorSize(4096));
        assertEquals(List.of("gpt.sector-size@512"), small.serious());
    }

    @Test
    void hostileSizesAndCounts() {
        for (int size : new int[] {0, 91, 513, -1}) {
            assertEquals(List.of("gpt.header.size@524"), Look.at(good.u32(524, size)).failed(), "HeaderSize " + size);
        }
        for (long count : new long[] {0, 1, 0x7FFFFFFFL, 0x80000000L, 0xFFFFFFFFL}) {
            assertTrue(Look.at(good.u32(592, count)).serious().contains("gpt.header.crc32@528"));
            assertTrue(Look.at(Samples.crc(good.u32(592, count > 1 ? 1 : 1), 1).u32(592, count)).failed().size() <= 2);
        }
        assertEquals(List.of("gpt.entries.count@592"), Look.at(headerCrc(good.u32(592, 0))).serious().stream()
                .filter(f -> f.startsWith("gpt.entries")).toList());
        assertTrue(Look.at(headerCrc(good.u32(596, 96))).serious().contains("gpt.entries.size@596"));
        assertTrue(Look.at(headerCrc(good.u64(584, -1))).serious().contains("gpt.entries.place@584"));
        assertTrue(Look.at(headerCrc(good.u64(560, -1).u64(552, -1))).serious().contains("gpt.header.usable-range@552")
                || Look.at(headerCrc(good.u64(560, -1).u64(552, -1))).serious().contains("gpt.header.usable-range@560"));
    }

    private static Memory headerCrc(Memory image) {
        Memory blank = image.u32(528, 0);
        return blank.u32(528, Samples.crc32(blank.get(512, 92)));
    }

    @Test
    void emptyTableAndLargeEntries() {
        Memory empty = good.put(1024, new byte[256]).put(131039 * 512L, new byte[256]);
        Look look = Look.at(Samples.crcs(empty));
        assertEquals(List.of(), look.failed());
        assertEquals(0xAB54D286L, Samples.le(Samples.crcs(empty), 600, 4));
        Memory large = Samples.gpt(512);
        for (long lba : new long[] {1, 131071}) {
            large = large.u32(lba * 512 + 84, 256).u32(lba * 512 + 80, 64);
        }
        for (long at : new long[] {1024, 131039 * 512L}) {
            large = large.put(at + 256, large.get(at + 128, 128)).put(at + 128, new byte[128]);
        }
        assertEquals(List.of(), Look.at(Samples.crcs(large)).failed());
        assertEquals(BOTH, Look.at(Samples.crcs(large)).partitions());
    }

    @Test
    void entryRules() {
        long entry = 1024 + 128;
        long twin = 131039 * 512L + 128;
        assertEquals(List.of("gpt.entry.unique-guid@" + (entry + 16)),
                Look.at(Samples.crcs(good.put(entry + 16, Samples.guid(Samples.FIRST)).put(twin + 16, Samples.guid(Samples.FIRST)))).failed());
        assertEquals(List.of("gpt.entry.attributes@" + (entry + 48)),
                Look.at(Samples.crcs(good.put(entry + 50, 1).put(twin + 50, 1))).failed());
        assertEquals(List.of("gpt.entry.name@" + (entry + 56)),
                Look.at(Samples.crcs(good.put(entry + 120, 1).put(twin + 120, 1))).failed());
        assertEquals(List.of("gpt.entry.range@" + (entry + 32)),
                Look.at(Samples.crcs(good.u64(entry + 40, 5).u64(twin + 40, 5))).failed());
        assertEquals(List.of("gpt.entry.erased@" + entry),
                Look.at(Samples.crcs(good.put(entry, new byte[16]).put(twin, new byte[16]))).failed());
    }
}
