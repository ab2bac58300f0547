package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Content;
import sectorglass.disk.Disk;
import sectorglass.disk.FileTree;
import sectorglass.disk.Partition;
import sectorglass.disk.Survey;
import sectorglass.disk.Volume;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.make.Demo;
import sectorglass.practice.copy.CopyResult;
import sectorglass.practice.copy.StructureCopier;
import sectorglass.practice.disk.DiskKey;
import sectorglass.practice.disk.KeyFault;
import sectorglass.practice.disk.PracticeMaker;
import sectorglass.testkit.Tool;
import sectorglass.verify.Finding;

/** A copy of structures shows the faults of the original, and holds none of its names and contents. */
class StructureCopyTest {
    /** Names that everybody's volume has. */
    private static final Set<String> COMMON = Set.of("lost+found", "System Volume Information");

    @TempDir
    static Path folder;

    private static CopyResult copy(OpenImage image, long seed) throws Exception {
        Files.deleteIfExists(folder.resolve("copy.img"));
        Files.deleteIfExists(folder.resolve("copy.csv"));
        return new StructureCopier(image, true, Verdicts.BOOK).copy(seed, folder.resolve("copy.img"), folder.resolve("copy.csv"), Progress.NONE);
    }

    private static OpenImage open(Path image) throws Exception {
        return Images.open(image, OpenOptions.DEFAULT.withSectorSize(512));
    }

    @TestFactory
    List<DynamicTest> plantedFaultsStayAndNothingIsAdded() {
        List<DynamicTest> tests = new ArrayList<>();
        for (List<String> kinds : PracticeDisksTest.groups()) {
            tests.add(DynamicTest.dynamicTest(String.join(", ", kinds), () -> {
                Path image = folder.resolve("original.img");
                DiskKey key = new PracticeMaker(Verdicts.BOOK).make(7, kinds, image);
                try (OpenImage opened = open(image)) {
                    CopyResult result = copy(opened, 5);
                    assertEquals(List.of(), result.added().stream().map(f -> f.check() + "@" + f.where().start()).toList());
                    for (KeyFault fault : key.faults()) {
                        assertTrue(result.same().stream().anyMatch(f -> f.check().equals(fault.check()) && f.where().start() == fault.seenByte()),
                                fault.kind() + " is gone: " + result.gone().stream().map(Finding::check).toList());
                    }
                    assertEquals(List.of(), result.gone().stream().map(Finding::check).toList());
                    assertNothingOfIt(opened);
                }
            }));
        }
        return tests;
    }

    /** Looks for every name, label and the beginning of every content, as bytes of several character sets and in capitals. */
    private static void assertNothingOfIt(OpenImage original) throws Exception {
        String haystack = written();
        String capitals = haystack.toUpperCase(Locale.ROOT);
        Disk disk = Survey.of(original, Progress.NONE);
        Set<String> words = new TreeSet<>();
        List<byte[]> contents = new ArrayList<>();
        List<Volume> volumes = new ArrayList<>(disk.partitions().stream().map(Partition::volume).filter(java.util.Objects::nonNull).toList());
        if (disk.volume() != null) {
            volumes.add(disk.volume());
        }
        for (Partition partition : disk.partitions()) {
            add(words, partition.entry().name());
        }
        for (Volume volume : volumes) {
            add(words, volume.info().label());
            sectorglass.disk.Files files = volume.capability(sectorglass.disk.Files.class).orElse(null);
            if (files == null) {
                continue;
            }
            FileTree tree = files.tree(Progress.NONE);
            for (int id = 0; id < tree.size(); id++) {
                if (!files.structure(id) && tree.parent(id) != tree.withoutFolder() && id != tree.withoutFolder()) {
                    add(words, tree.name(id));
                    Content content = tree.folder(id) ? null : files.content(id, "");
                    if (content != null && content.bytes() >= 32) {
                        byte[] middle = new byte[24];
                        content.read(content.bytes() / 2, middle, 0, (int) Math.min(24, content.bytes() - content.bytes() / 2));
                        contents.add(middle);
                    }
                }
            }
        }
        assertTrue(words.size() >= 3, words.toString());
        for (String word : words) {
            for (Charset charset : List.of(StandardCharsets.UTF_8, StandardCharsets.UTF_16LE)) {
                String needle = new String(word.getBytes(charset), StandardCharsets.ISO_8859_1);
                assertFalse(haystack.contains(needle), "\"" + word + "\" stands in the copy at byte " + haystack.indexOf(needle) + " as " + charset);
                String loud = new String(word.toUpperCase(Locale.ROOT).getBytes(charset), StandardCharsets.ISO_8859_1);
                assertFalse(capitals.contains(loud), "\"" + word + "\" in capitals stands in the copy at byte " + capitals.indexOf(loud) + " as " + charset);
            }
        }
        for (byte[] content : contents) {
            String needle = new String(content, StandardCharsets.ISO_8859_1);
            boolean dull = needle.chars().distinct().count() < 4;
            assertFalse(!dull && haystack.contains(needle), "content stands in the copy at byte " + haystack.indexOf(needle));
        }
    }

    /** All that is not zero in the copy, sector by sector: whatever stands there, called read or not. */
    private static String written() throws Exception {
        StringBuilder all = new StringBuilder();
        byte[] zero = new byte[512];
        try (var in = new java.io.BufferedInputStream(Files.newInputStream(folder.resolve("copy.img")), 1 << 20)) {
            for (byte[] sector = in.readNBytes(512); sector.length > 0; sector = in.readNBytes(512)) {
                if (!java.util.Arrays.equals(sector, zero)) {
                    all.append(new String(sector, StandardCharsets.ISO_8859_1));
                }
            }
        }
        return all.toString();
    }

    private static void add(Set<String> words, String word) {
        if (word != null && word.length() >= 4 && !COMMON.contains(word)) {
            words.add(word);
        }
    }

    @TestFactory
    List<DynamicTest> theDemoDisksGiveCleanCopies() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Demo.Variant variant : List.of(Demo.Variant.GPT, Demo.Variant.MBR)) {
            tests.add(DynamicTest.dynamicTest(variant.name(), () -> {
                Path image = Demo.write(folder, variant).image();
                try (OpenImage opened = open(image)) {
                    CopyResult result = copy(opened, 77);
                    assertEquals(List.of(1, 2, 3, 4), result.volumes());
                    assertEquals(List.of(), result.added().stream().map(Finding::check).toList());
                    assertEquals(List.of(), result.gone().stream().map(Finding::check).toList());
                    assertTrue(result.same().size() >= 7, result.same().toString());
                    assertTrue(result.sectors().count() < opened.sectors() / 20, result.sectors().count() + " sectors");
                    assertNothingOfIt(opened);
                }
            }));
        }
        return tests;
    }

    /** Volumes made by the formatters of each file system, filled with names and content that must not come through. */
    @TestFactory
    List<DynamicTest> volumesMadeByOthersGiveCleanCopies() {
        return List.of("mkntfs", "mkfs.fat", "mkfs.ext4").stream().map(maker -> DynamicTest.dynamicTest(maker, () -> {
            Tool.require(maker, "ntfscp", "mcopy", "debugfs");
            Path image = MadeDisk.blank(folder.resolve("made.img"), 24);
            byte[] content = "Whoever reads this reads what a customer wrote. ".repeat(400).getBytes(StandardCharsets.UTF_8);
            Path payload = Files.write(folder.resolve("Confidential letter.txt"), content);
            Path small = Files.write(folder.resolve("Small secret.txt"), "A secret of a few words only, kept in the record.".getBytes(StandardCharsets.UTF_8));
            String at = image.toString();
            switch (maker) {
                case "mkntfs" -> {
                    Tool.run(Map.of(), null, 60, "mkntfs", "-q", "-F", "-f", "-L", "Private label", at).ok();
                    for (Path file : List.of(payload, small)) {
                        Tool.run(Map.of(), null, 20, "ntfscp", "-f", at, file.toString(), file.getFileName().toString()).ok();
                    }
                }
                case "mkfs.fat" -> {
                    Tool.run(Map.of(), null, 60, "mkfs.fat", "-F", "16", "-n", "PRIVATELBL", at).ok();
                    Tool.run(Map.of(), null, 20, "mmd", "-i", at, "::/Family matters").ok();
                    for (Path file : List.of(payload, small)) {
                        Tool.run(Map.of(), null, 20, "mcopy", "-i", at, file.toString(), "::/Family matters").ok();
                    }
                    Tool.run(Map.of(), null, 20, "mdel", "-i", at, "::/Family matters/Small secret.txt").ok();
                }
                default -> {
                    Tool.run(Map.of(), null, 60, "mkfs.ext4", "-q", "-F", "-L", "Private label", "-M", "/srv/customer", at).ok();
                    for (Path file : List.of(payload, small)) {
                        Tool.run(Map.of(), null, 20, "debugfs", "-w", "-R", "write \"" + file + "\" \"" + file.getFileName() + "\"", at).ok();
                    }
                    Tool.run(Map.of(), null, 20, "debugfs", "-w", "-R", "symlink pointer /home/customer/diary", at).ok();
                    Tool.run(Map.of(), null, 20, "debugfs", "-w", "-R", "rm \"Small secret.txt\"", at).ok();
                }
            }
            try (OpenImage opened = open(image)) {
                CopyResult result = copy(opened, 3);
                assertEquals(List.of(), result.added().stream().map(f -> f.check() + " " + f.stored() + " " + f.computed()).toList());
                assertNothingOfIt(opened);
                String all = written().toUpperCase(Locale.ROOT);
                for (String secret : List.of("customer wrote", "few words only", "Confidential", "secret", "Family", "Private", "PRIVATELBL", "/srv/customer", "diary")) {
                    for (Charset charset : List.of(StandardCharsets.US_ASCII, StandardCharsets.UTF_16LE)) {
                        String needle = new String(secret.toUpperCase(Locale.ROOT).getBytes(charset), StandardCharsets.ISO_8859_1);
                        assertFalse(all.contains(needle), secret + " as " + charset + " at byte " + all.indexOf(needle));
                    }
                }
            }
        })).toList();
    }

    @Test
    void theCommandSaysWhatItCopied() throws Exception {
        Path image = Demo.write(folder, Demo.Variant.GPT).image();
        Path to = folder.resolve("structures");
        Cli said = Cli.run("structures", image, "--to", to, "--seed", 9, "--json");
        assertEquals(0, said.status(), said.err());
        assertEquals(0, said.json().get("added").size(), said.out());
        assertTrue(said.json().get("same").size() >= 7, said.out());
        assertEquals(6, Cli.run("structures", image, "--to", to).status());
        Cli verify = Cli.run("verify", to.resolve("structures.img"), "--read-map", to.resolve("structures.csv"), "--json");
        assertEquals(1, verify.status(), verify.err());
        assertTrue(verify.checks().contains("ntfs.boot.hidden-sectors"), verify.out());
    }
}
