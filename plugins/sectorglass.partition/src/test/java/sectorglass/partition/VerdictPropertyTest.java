package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;

/** What holds for every image and every set of unread sectors. */
class VerdictPropertyTest {
    private static final long N = 131072;
    /** Rules that need the sectors of their own structure and nothing else. */
    private static final Set<String> LOCAL = Set.of("mbr.signature", "mbr.active-byte", "mbr.active-count", "mbr.partition-range",
            "mbr.partition-overlap", "mbr.container-count", "mbr.chs", "mbr.alignment", "mbr.unused-slot", "gpt.header.size",
            "gpt.header.crc32", "gpt.header.revision", "gpt.header.my-lba", "gpt.header.reserved", "gpt.entries.count", "gpt.entries.size",
            "gpt.entries.place");

    /** Images with and without damage, and the sectors their tables take. */
    @Provide
    Arbitrary<Memory> images() {
        Memory gpt = Samples.gpt(512);
        Memory mbr = Samples.mbr();
        return Arbitraries.of(gpt, mbr, gpt.put(0, new byte[512]), gpt.put(1080, 0x58), gpt.put(568, 0x66), gpt.resize(63 * Samples.MIB),
                gpt.put((N - 1) * 512, gpt.get(512, 512)), gpt.put(512, new byte[512]), gpt.put((N - 1) * 512, new byte[512]),
                Samples.crcs(gpt.u64(1024 + 160, 30000).u64(131039 * 512L + 160, 30000)), mbr.put(176128L * 512 + 510, 0, 0),
                mbr.u32(90177990, 178176), mbr.u32(462 + 8, 3000), mbr.put(462 + 4, 0x0F));
    }

    @Provide
    Arbitrary<List<Long>> tableSectors() {
        return Arbitraries.of(0L, 1L, 2L, 3L, 20L, 33L, 131039L, 131040L, 131070L, N - 1, 129023L, 133120L, 176128L, 219136L).list()
                .ofMinSize(1).ofMaxSize(6);
    }

    private static Map<String, Verdict> verdicts(Look look) {
        Map<String, Verdict> all = new HashMap<>();
        look.findings().all().stream().filter(f -> !f.check().startsWith("disk.")).forEach(f -> all.merge(f.check() + "@"
                + f.structure().start(), f.verdict(), (a, b) -> a == Verdict.FAILED || b == Verdict.FAILED ? Verdict.FAILED
                        : a == Verdict.NOT_CHECKED || b == Verdict.NOT_CHECKED ? Verdict.NOT_CHECKED : a));
        return all;
    }

    private static Memory masked(Memory image, List<Long> sectors) {
        Memory masked = image;
        for (long sector : sectors) {
            masked = masked.unread(sector, 1);
        }
        return masked;
    }

    private static boolean touched(Finding finding, List<Long> sectors) {
        SectorRange run = finding.structure().sectors(512);
        return sectors.stream().anyMatch(run::contains);
    }

    @Property(tries = 60)
    void sameImageSameVerdicts(@ForAll("images") Memory image, @ForAll("tableSectors") List<Long> sectors) {
        Memory masked = masked(image, sectors);
        assertEquals(Look.at(masked).findings(), Look.at(masked).findings());
    }

    @Property(tries = 150)
    void unreadSectorsNeverTurnAVerdict(@ForAll("images") Memory image, @ForAll("tableSectors") List<Long> sectors) {
        Map<String, Verdict> before = verdicts(Look.at(image));
        Map<String, Verdict> after = verdicts(Look.at(masked(image, sectors)));
        for (Map.Entry<String, Verdict> now : after.entrySet()) {
            Verdict then = before.get(now.getKey());
            if (then != null) {
                assertTrue(now.getValue() == then || now.getValue() == Verdict.NOT_CHECKED || then == Verdict.NOT_CHECKED
                        || then == Verdict.FAILED && now.getValue() == Verdict.PASSED && partly(now.getKey()),
                        now.getKey() + " was " + then + ", is " + now.getValue() + " without " + sectors);
            } else {
                assertFalse(now.getValue() == Verdict.FAILED, now.getKey() + " fails only without " + sectors);
            }
        }
        if (!after.keySet().containsAll(before.keySet())) {
            assertTrue(after.containsValue(Verdict.NOT_CHECKED), "checks vanish silently without " + sectors);
        }
    }

    /** Rules reported once per entry: where the failing entry itself was not read, only the others answer. */
    private static boolean partly(String key) {
        return key.startsWith("gpt.entry.");
    }

    @Property(tries = 150)
    void checksOfReadStructuresKeepTheirVerdict(@ForAll("images") Memory image, @ForAll("tableSectors") List<Long> sectors) {
        Map<String, Verdict> after = new HashMap<>();
        Look.at(masked(image, sectors)).findings().all().forEach(f -> after.put(f.check() + "@" + f.where(), f.verdict()));
        for (Finding finding : Look.at(image).findings().all()) {
            String key = finding.check() + "@" + finding.where();
            boolean located = finding.structure().start() == 0 || finding.check().startsWith("gpt.");
            if (LOCAL.contains(finding.check()) && located && !touched(finding, sectors) && after.containsKey(key)) {
                assertEquals(finding.verdict(), after.get(key), key + " without " + sectors);
            }
        }
    }

    @Property(tries = 150)
    void notCheckedNamesExactlyTheMissingSectors(@ForAll("images") Memory image, @ForAll("tableSectors") List<Long> sectors) {
        Memory masked = masked(image, sectors);
        SectorRanges gone = SectorRanges.EMPTY;
        for (long sector : sectors) {
            gone = gone.union(SectorRanges.of(sector, 1));
        }
        gone = gone.union(SectorRanges.of(image.sectors(), 1L << 40));
        for (Finding finding : Look.at(masked).findings().all()) {
            if (finding.verdict() != Verdict.NOT_CHECKED) {
                assertTrue(finding.missing().isEmpty());
                continue;
            }
            assertTrue(!finding.missing().isEmpty() || finding.reason() != null, finding.toString());
            assertTrue(finding.missing().minus(gone).isEmpty(), finding.check() + " names " + finding.missing());
            if (finding.check().startsWith("gpt.header.") || finding.check().equals("mbr.signature")) {
                assertEquals(gone.intersect(finding.structure().sectors(512)), finding.missing(), finding.check());
            }
        }
    }

    @Provide
    Arbitrary<List<Long>> changes() {
        Arbitrary<Long> table = Arbitraries.longs().between(0, 1024 + 512);
        Arbitrary<Long> tail = Arbitraries.longs().between((N - 2) * 512, N * 512 - 1);
        Arbitrary<Long> chain = Arbitraries.longs().between(446, 511).flatMap(at -> Arbitraries.of(133120L, 176128L, 219136L)
                .map(lba -> lba * 512 + at));
        return Arbitraries.oneOf(table, table, tail, chain).list().ofMinSize(1).ofMaxSize(24);
    }

    @Property(tries = 200)
    void changedBytesNeverThrow(@ForAll("images") Memory image, @ForAll("changes") List<Long> places, @ForAll byte[] values) {
        Memory changed = image;
        List<Long> all = new ArrayList<>(places);
        for (int i = 0; i < all.size(); i++) {
            int value = values.length == 0 ? 0xFF : values[i % values.length];
            changed = changed.put(Math.min(all.get(i), image.bytes() - 1), value);
        }
        for (int size : new int[] {512, 4096}) {
            Look look = Look.at(changed.sectorSize(size));
            look.disk().partitions().forEach(p -> assertTrue(p.range().count() > 0));
        }
    }
}
