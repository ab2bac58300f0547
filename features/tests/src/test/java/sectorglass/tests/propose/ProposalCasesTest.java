package sectorglass.tests.propose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Repair;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.propose.BoundarySites;
import sectorglass.recovery.propose.Proposal;
import sectorglass.recovery.propose.Proposals;
import sectorglass.recovery.propose.Sites;
import sectorglass.testkit.Tool;
import sectorglass.verify.RuleBook;

/**
 * Each case of the table in docs/proposals.md: the best proposal, applied to a copy, lets the reference utilities read what they read before
 * the damage, as far as what is left determines it; the rest is named. The table is written by this test with {@code -Dwrite.docs=true} and
 * compared with the one in the docs otherwise.
 */
class ProposalCasesTest {
    private static final Path DOCS = Path.of("../../docs/proposals.md");
    private static final String BEGIN = "<!-- cases -->";
    private static final String END = "<!-- /cases -->";

    @TempDir
    Path folder;

    @Test
    void disksAreReadAsBeforeTheDamage() throws Exception {
        Tool.require("sfdisk", "fdisk", "parted", "partx", "blkid", "mkfs.fat", "mmd", "fsck.fat", "mkntfs", "ntfsinfo", "mke2fs", "e2fsck",
                "mkfs.exfat", "fsck.exfat");
        Disks disks = new Disks(folder);
        Map<String, byte[]> contents = new java.util.HashMap<>();
        List<String> rows = new ArrayList<>();
        List<String> wrong = new ArrayList<>();
        Map<String, Map<String, String>> before = new java.util.HashMap<>();
        int number = 0;
        for (Case one : Cases.all()) {
            Disks.Disk disk = disks.disk(one.disk());
            Map<String, String> was = before.get(one.disk());
            if (was == null) {
                was = Readings.of(disk, disk.file(), folder);
                before.put(one.disk(), was);
            }
            byte[] original = bytes(one.disk(), disk, contents);
            byte[] damaged = original.clone();
            one.inflict(damaged, disk.sectorSize());
            Result result = run(one, disk, original, damaged, was);
            rows.add("| " + ++number + " | " + one.disk() + " | " + one.damage() + " | " + result.proposal + " | " + result.words + " |");
            result.wrong.forEach(w -> wrong.add("case " + rows.size() + ", " + one.disk() + ", " + one.damage() + ": " + w));
        }
        assertTrue(rows.size() >= 40);
        assertTrue(wrong.isEmpty(), () -> String.join("\n", wrong));
        table(rows);
    }

    private static final class Result {
        private String proposal = "none";
        private String words = "";
        private final List<String> wrong = new ArrayList<>();
    }

    private static byte[] bytes(String name, Disks.Disk disk, Map<String, byte[]> known) throws IOException {
        byte[] bytes = known.get(name);
        if (bytes == null) {
            known.clear();
            bytes = Files.readAllBytes(disk.file());
            known.put(name, bytes);
        }
        return bytes;
    }

    private Result run(Case one, Disks.Disk disk, byte[] original, byte[] damaged, Map<String, String> was) throws Exception {
        Result result = new Result();
        Path file = Disks.write(folder.resolve("damaged.img"), damaged);
        Proposal best;
        try (OpenImage image = Images.open(file, options(one, disk, damaged.length))) {
            Sites sites = BoundarySites.of(image, Progress.NONE);
            List<Proposal> all = new Proposals(RuleBook.ofProviders(Locale.ENGLISH), sites::volumes).of(image, Progress.NONE);
            if (all.isEmpty() || !all.get(0).good()) {
                result.wrong.add("no good proposal among " + all.stream().map(p -> p.id() + " worse " + p.effect().worse()).toList());
                return result;
            }
            best = all.get(0);
        }
        result.proposal = best.steps().stream().map(Repair::id).collect(Collectors.joining(", then "));
        byte[] corrected = damaged.clone();
        for (Repair.Change change : best.changes()) {
            System.arraycopy(change.bytes(), 0, corrected, (int) change.firstByte(), change.bytes().length);
        }
        long differing = differing(original, corrected);
        // an image that is byte by byte the former one reads the same without being asked
        Map<String, String> is = differing == 0 ? was : Readings.of(disk, Disks.write(folder.resolve("copy.img"), corrected), folder);
        was.forEach((utility, text) -> {
            if (!one.strip(text).equals(one.strip(is.get(utility)))) {
                result.wrong.add(utility + " read\n" + one.strip(text) + "\nand reads\n" + one.strip(is.get(utility)));
            }
        });
        if (!one.identical() && one.unknown().isEmpty()) {
            result.wrong.add("what may differ is not named");
        }
        if (one.identical() && differing > 0) {
            result.wrong.add(differing + " bytes differ from the disk as it was");
        }
        assertFalse(best.effect().harms());
        String same = was.size() + " readings as before";
        result.words = differing == 0 ? "byte by byte as before" : same + "; differs: " + unknown(one);
        return result;
    }

    private OpenOptions options(Case one, Disks.Disk disk, long bytes) throws IOException {
        OpenOptions options = OpenOptions.DEFAULT.withSectorSize(disk.sectorSize());
        SectorRanges unread = one.unread(bytes / disk.sectorSize(), disk.sectorSize());
        if (unread.isEmpty()) {
            return options;
        }
        StringBuilder map = new StringBuilder("first_lba,sectors,state\n");
        unread.forEach(run -> map.append(run.first()).append(',').append(run.count()).append(",unread\n"));
        SectorRanges.of(0, bytes / disk.sectorSize()).minus(unread)
                .forEach(run -> map.append(run.first()).append(',').append(run.count()).append(",read\n"));
        return options.withReadMap(Files.writeString(folder.resolve("read-map.csv"), map));
    }

    private static String unknown(Case one) {
        return one.unknown().stream().map(Case.Unknown::field).collect(Collectors.joining(", "));
    }

    private static long differing(byte[] one, byte[] two) {
        long count = Math.abs((long) one.length - two.length);
        for (int i = 0; i < Math.min(one.length, two.length); i++) {
            count += one[i] != two[i] ? 1 : 0;
        }
        return count;
    }

    private static void table(List<String> rows) throws Exception {
        String table = BEGIN + "\n| | disk | damage | proposal | after applying it to a copy |\n|---|---|---|---|---|\n" + String.join("\n", rows)
                + "\n" + END;
        String docs = Files.readString(DOCS);
        int from = docs.indexOf(BEGIN);
        int to = docs.indexOf(END) + END.length();
        if (Boolean.getBoolean("write.docs")) {
            Files.writeString(DOCS, docs.substring(0, from) + table + docs.substring(to));
            return;
        }
        assertEquals(table, docs.substring(from, to), "the table in docs/proposals.md is not what the test finds; -Dwrite.docs=true writes it");
    }
}
