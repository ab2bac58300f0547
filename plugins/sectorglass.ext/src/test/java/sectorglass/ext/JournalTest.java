package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.disk.Structure;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;
import sectorglass.testvolumes.Specs;

/** Transactions that debugfs wrote into the journal (jo, jw, jc) and did not replay, held against its logdump. */
class JournalTest {
    private static final int BLOCK = 4096;
    /** Block 0 of the journal of e4; debugfs 1.47, stat <8>. */
    private static final int JOURNAL = 4096;
    private static final Map<String, byte[]> MADE = new HashMap<>();

    /** The volume e4 with two transactions: blocks 500, 501 and 502, and a revocation. */
    private static synchronized byte[] waiting(String options) throws IOException {
        byte[] known = MADE.get(options);
        if (known == null) {
            Path image = ExtImages.file(ExtImages.image("e4"));
            Path blocks = Files.createTempFile("blocks", ".bin");
            byte[] content = new byte[3 * BLOCK];
            for (int i = 0; i < content.length; i++) {
                content[i] = (byte) (i * 31 + i / 251);
            }
            // begins like a block of the journal's own, so that it has to be escaped
            System.arraycopy(new byte[] {(byte) 0xC0, 0x3B, 0x39, (byte) 0x98}, 0, content, 0, 4);
            Files.write(blocks, content);
            Path script = Files.writeString(Files.createTempFile("journal", ".txt"), "jo " + options + "\njw -b 500,501 " + blocks + "\njw -r 600,601\njw -b 502 "
                    + blocks + "\njc\nquit\n");
            Tool.run(Map.of("E2FSPROGS_FAKE_TIME", "1700000000"), null, 20, "debugfs", "-w", "-f", script.toString(), image.toString()).ok();
            known = Files.readAllBytes(image);
            MADE.put(options, known);
        }
        return known.clone();
    }

    /** Blocks of the journal by kind, as logdump names them. */
    private static Map<String, List<Integer>> logged(byte[] bytes) {
        String text = Tool.run("debugfs", "-R", "logdump -a", ExtImages.file(bytes).toString()).ok();
        Map<String, List<Integer>> found = new HashMap<>();
        Matcher lines = Pattern.compile("\\((descriptor block|commit block|revoke table)\\) at block (\\d+)|logged at journal block (\\d+)").matcher(text);
        while (lines.find()) {
            found.computeIfAbsent(lines.group(1) == null ? "data" : lines.group(1).split(" ")[0], k -> new ArrayList<>())
                    .add(Integer.parseInt(lines.group(1) == null ? lines.group(3) : lines.group(2)));
        }
        return found;
    }

    @ParameterizedTest
    @CsvSource({"-c -v 3", "-c -v 2"})
    void checksumsOfAllKindsHold(String options) throws IOException {
        byte[] bytes = waiting(options);
        Judged judged = Forced.full(DiskFile.of(bytes));
        assertEquals(List.of(), judged.failed().stream().filter(rule -> rule.startsWith("ext.journal")).toList(), judged.text());
        for (String kind : List.of("descriptor", "tag", "commit")) {
            assertTrue(judged.passed("ext.journal." + kind + "-checksum"), kind + "\n" + judged.text());
        }
        assertEquals(List.of("commit", "data", "descriptor", "revoke"), logged(bytes).keySet().stream().sorted().toList());
    }

    @ParameterizedTest
    @CsvSource({"-c -v 3, descriptor, 20, descriptor", "-c -v 3, data, 100, tag", "-c -v 3, commit, 60, commit", "-c -v 3, revoke, 20, descriptor",
        "-c -v 2, descriptor, 40, descriptor", "-c -v 2, data, 4095, tag", "-c -v 2, commit, 17, commit", "-c -v 2, revoke, 4093, descriptor"})
    void aChangedByteIsFound(String options, String kind, int at, String rule) throws IOException {
        byte[] bytes = waiting(options);
        int block = JOURNAL + logged(bytes).get(kind).get(0);
        bytes[block * BLOCK + at] ^= 0x10;
        Judged judged = Forced.full(DiskFile.of(bytes));
        assertTrue(judged.failed().contains("ext.journal." + rule + "-checksum"), judged.text());
        assertTrue(judged.findings().all().stream().anyMatch(f -> f.check().equals("ext.journal." + rule + "-checksum")
                && f.where().start() / BLOCK == block), judged.text());
    }

    @Test
    void unreadBlocksLeaveItOpen() throws IOException {
        byte[] bytes = waiting("-c -v 3");
        SectorRanges lost = SectorRanges.of((JOURNAL + logged(bytes).get("data").get(1)) * 8L, 8);
        Judged judged = Forced.full(DiskFile.of(bytes).unread(lost));
        assertTrue(judged.undecided().contains("ext.journal.tag-checksum"), judged.text());
        assertTrue(judged.passed("ext.journal.commit-checksum"), judged.text());
        SectorRanges first = SectorRanges.of((JOURNAL + 1) * 8L, 8);
        judged = Forced.full(DiskFile.of(bytes).unread(first));
        assertTrue(judged.undecided().contains("ext.journal.descriptor-checksum"), judged.text());
        assertTrue(judged.undecided().contains("ext.journal.commit-checksum"), judged.text());
    }

    @ParameterizedTest
    @CsvSource({"-c -v 3", "-c -v 2", "''"})
    void theBlocksAreAnnotated(String options) throws IOException {
        byte[] bytes = waiting(options);
        sectorglass.disk.Volume volume = Forced.open(DiskFile.of(bytes));
        List<Structure> found = new ArrayList<>();
        Map<String, List<Integer>> logged = logged(bytes);
        for (String kind : List.of("descriptor", "commit", "revoke")) {
            found.add(volume.structureAt((long) (JOURNAL + logged.get(kind).get(0)) * BLOCK + 5).orElseThrow());
        }
        assertArrayEquals(new String[] {"ext_journal_descriptor", "ext_journal_commit", "ext_journal_revocation"},
                found.stream().map(Structure::format).toArray());
        List<String> problems = new ArrayList<>();
        String text = Specs.text(volume.site().image(), found, problems);
        assertEquals(List.of(), problems);
        assertTrue(text.contains("t_blocknr 500") && text.contains("t_blocknr 501"), text);
    }
}
