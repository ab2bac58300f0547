package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import com.fasterxml.jackson.databind.JsonNode;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Content;
import sectorglass.disk.Disk;
import sectorglass.disk.FileTree;
import sectorglass.disk.Survey;
import sectorglass.disk.way.Calculation;
import sectorglass.disk.way.Reading;
import sectorglass.disk.way.WayStep;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.make.Demo;
import sectorglass.practice.disk.PracticeMaker;
import sectorglass.recovery.way.Way;
import sectorglass.recovery.way.WayFinder;
import sectorglass.testkit.Tool;

/** The way from LBA 0 to a file: all arithmetic is computed again, each step leads to the next, the last address holds the file's first bytes. */
class WayTest {
    @TempDir
    static Path folder;

    private static OpenImage open(Path image) throws Exception {
        return Images.open(image, OpenOptions.DEFAULT.withSectorSize(512));
    }

    @TestFactory
    List<DynamicTest> everyFileOfDisksMadeHereIsReached() throws Exception {
        List<DynamicTest> tests = new ArrayList<>();
        for (Demo.Variant variant : List.of(Demo.Variant.GPT_SOUND, Demo.Variant.MBR_SOUND)) {
            Path image = Demo.write(folder, variant).image();
            tests.add(DynamicTest.dynamicTest(variant.name(), () -> assertTrue(reached(image) > 250)));
        }
        Path ext = folder.resolve("ext.img");
        new PracticeMaker(Verdicts.BOOK).make(1, List.of("mbr.reserved", "ext.sb.backup-group", "fat.jump-form"), ext);
        tests.add(DynamicTest.dynamicTest("ext4", () -> assertTrue(reached(ext) > 120)));
        return tests;
    }

    /** Walks to every file with content, and says how many there are. */
    private static int reached(Path file) throws Exception {
        int files = 0;
        try (OpenImage image = open(file)) {
            Disk disk = Survey.of(image, Progress.NONE);
            WayFinder finder = new WayFinder(disk, Locale.ENGLISH);
            for (int number : finder.volumes()) {
                sectorglass.disk.Files all = disk.volume(number).orElseThrow().capability(sectorglass.disk.Files.class).orElseThrow();
                FileTree tree = all.tree(Progress.NONE);
                for (int id = 0; id < tree.size(); id++) {
                    if (tree.deleted(id) || tree.folder(id) || tree.bytes(id) < 16 || all.structure(id) || tree.parent(id) == tree.withoutFolder()) {
                        continue;
                    }
                    Way way = finder.way(number, tree.path(id)).orElseThrow();
                    assertTrue(way.complete(), tree.path(id) + ": " + way.stop());
                    assertHolds(way);
                    Content content = all.content(id, "");
                    byte[] first = new byte[16];
                    content.read(0, first, 0, 16);
                    assertArrayEquals(first, image.window(way.contentByte(), 16).bytes(0, 16), tree.path(id));
                    files++;
                }
            }
        }
        return files;
    }

    /** All sums are right, fields have the bytes they are said to have, and each step leads into the structure of the next one. */
    private static void assertHolds(Way way) {
        for (int i = 0; i < way.steps().size(); i++) {
            WayStep step = way.steps().get(i);
            for (Calculation sum : step.calculations()) {
                assertEquals(Sums.of(sum.numbers()), sum.result(), sum.words() + ": " + sum.numbers());
            }
            for (Reading reading : step.readings()) {
                assertFalse(reading.name().isBlank() || reading.where().start() < 0, step.title());
            }
            if (i + 1 < way.steps().size() && step.next() >= 0) {
                WayStep next = way.steps().get(i + 1);
                assertTrue(next.where().start() >= step.next() && next.where().start() - step.next() < 1 << 21
                        || next.where().contains(step.next()), step.title() + " leads to " + step.next() + ", but " + next.title() + " stands at " + next.where());
            }
        }
    }

    @Test
    void readingsHaveTheBytesThatStandThere() throws Exception {
        Path file = Demo.write(folder, Demo.Variant.GPT_SOUND).image();
        try (OpenImage image = open(file)) {
            WayFinder finder = new WayFinder(Survey.of(image, Progress.NONE), Locale.ENGLISH);
            int read = 0;
            for (Way way : List.of(finder.way(1, "Offers/draft.txt").orElseThrow(), finder.way(2, "Harbour in fog/Harbour selection 0004.jpg").orElseThrow(),
                    finder.way(3, "Thumbnails/thumbnail 0100.png").orElseThrow(), finder.way(4, "PICTURES/100RIDGE/FRM_0210.JPG").orElseThrow())) {
                for (WayStep step : way.steps()) {
                    for (Reading reading : step.readings()) {
                        int length = (int) Math.min(16, reading.where().length());
                        String there = java.util.HexFormat.ofDelimiter(" ").withUpperCase().formatHex(image.window(reading.where().start(), length).bytes(0, length));
                        assertEquals(there, reading.hex().replace(" …", ""), step.title() + ", " + reading.name());
                        read++;
                    }
                }
            }
            assertTrue(read > 80, read + " readings");
            assertEquals("No entry of the name \"draft.txt\" stands here.", finder.way(1, "Offers/draft.txt").orElseThrow().stop());
            assertNotNull(finder.way(3, "Thumbnails/none.png").orElseThrow().stop());
            assertNotNull(finder.way(3, "catalogue.zip/inside").orElseThrow().stop());
        }
    }

    @Test
    void unreadPlacesEndTheWayAndSaySo() throws Exception {
        Path file = Demo.write(folder, Demo.Variant.GPT_SOUND).image();
        String[] paths = {"Offers/Offer 2025-014 Quillmere.pdf", "Contact sheets/SHEET02.PNG", "Thumbnails/thumbnail 0100.png", "PICTURES/100RIDGE/FRM_0210.JPG"};
        try (OpenImage image = open(file)) {
            Disk disk = Survey.of(image, Progress.NONE);
            int stopped = 0;
            for (int volume = 1; volume <= 4; volume++) {
                Way whole = new WayFinder(disk, Locale.GERMAN).way(volume, paths[volume - 1]).orElseThrow();
                assertTrue(whole.complete(), whole.stop());
                // the map and the boot sector have second copies that may serve; from there on there is one way only
                for (int i = whole.steps().size() - 3; i < whole.steps().size(); i++) {
                    WayStep step = whole.steps().get(i);
                    long lba = step.readings().get(step.readings().size() - 1).where().start() / 512;
                    MaskedImage masked = MaskedImage.unread(image, SectorRanges.of(lba, 1), MaskedImage.Filling.noise(lba));
                    Way way = new WayFinder(Survey.of(masked, Progress.NONE), Locale.GERMAN).way(volume, paths[volume - 1]).orElseThrow();
                    assertFalse(way.complete(), step.title());
                    WayStep last = way.steps().get(way.steps().size() - 1);
                    assertTrue(last.missing().contains(lba) && last.stop().contains("nicht gelesen"), step.title() + ": " + last);
                    assertEquals(-1, last.next());
                    stopped++;
                }
            }
            assertEquals(12, stopped);
        }
    }

    private static Path payload() throws Exception {
        byte[] content = new byte[50_000];
        new java.util.Random(5).nextBytes(content);
        return Files.write(folder.resolve("payload.bin"), content);
    }

    private static long contentByte(Path image, String path) {
        Cli said = Cli.run("explain", image, "--way", path, "--json");
        assertEquals(0, said.status(), said.err() + said.out());
        JsonNode way = said.json();
        assertTrue(way.get("complete").asBoolean());
        return way.get("contentByte").asLong();
    }

    private static void assertPayload(Path image, long at) throws Exception {
        byte[] all = Files.readAllBytes(image);
        assertArrayEquals(Arrays.copyOf(Files.readAllBytes(payload()), 16), Arrays.copyOfRange(all, (int) at, (int) at + 16));
    }

    private static Path volume(String name, long mib, String... command) throws Exception {
        Tool.require(command[0]);
        Path image = MadeDisk.blank(folder.resolve(name), mib);
        List<String> all = new ArrayList<>(List.of(command));
        all.add(image.toString());
        Tool.run(Map.of(), null, 60, all.toArray(new String[0])).ok();
        return image;
    }

    @Test
    void ntfsclusterNamesTheSameCluster() throws Exception {
        Tool.require("mkntfs", "ntfscp", "ntfscluster");
        Path image = volume("way-ntfs.img", 24, "mkntfs", "-q", "-F", "-f");
        Tool.run(Map.of("LC_ALL", "C"), null, 20, "ntfscp", "-f", image.toString(), payload().toString(), "payload.bin").ok();
        String said = Tool.run(Map.of("LC_ALL", "C"), null, 20, "ntfscluster", "-f", "-F", "payload.bin", image.toString()).out();
        java.util.regex.Matcher m = java.util.regex.Pattern.compile("(?s)0x80.*?\\b0 (\\d+) \\d+").matcher(said.replaceAll("[\\t ]+", " "));
        assertTrue(m.find(), said);
        long at = contentByte(image, "payload.bin");
        assertEquals(Long.parseLong(m.group(1)) * 4096, at, said);
        assertPayload(image, at);
    }

    @Test
    void mshowfatNamesTheSameCluster() throws Exception {
        Tool.require("mkfs.fat", "mcopy", "mmd", "mshowfat");
        for (String bits : List.of("12", "16", "32")) {
            long mib = bits.equals("12") ? 4 : bits.equals("16") ? 16 : 40;
            int perCluster = bits.equals("32") ? 1 : 4;
            Path image = volume("way-fat" + bits + ".img", mib, "mkfs.fat", "-F", bits, "-s", Integer.toString(perCluster));
            Tool.run(Map.of(), null, 20, "mmd", "-i", image.toString(), "::/some folder").ok();
            Tool.run(Map.of(), null, 20, "mcopy", "-i", image.toString(), payload().toString(), "::/some folder/long payload name.bin").ok();
            String said = Tool.run(Map.of(), null, 20, "mshowfat", "-i", image.toString(), "::/some folder/long payload name.bin").ok();
            java.util.regex.Matcher m = java.util.regex.Pattern.compile("<(\\d+)").matcher(said);
            assertTrue(m.find(), said);
            byte[] boot = Arrays.copyOf(Files.readAllBytes(image), 512);
            long fat = bits.equals("32") ? boot[36] & 0xFF | (boot[37] & 0xFF) << 8 : boot[22] & 0xFF | (boot[23] & 0xFF) << 8;
            long root = ((boot[17] & 0xFF | (boot[18] & 0xFF) << 8) * 32 + 511) / 512;
            long first = (boot[14] & 0xFF) + 2 * fat + root;
            long at = contentByte(image, "some folder/long payload name.bin");
            assertEquals((first + (Long.parseLong(m.group(1)) - 2) * perCluster) * 512, at, said);
            assertPayload(image, at);
        }
    }

    @Test
    void debugfsNamesTheSameBlock() throws Exception {
        Tool.require("mkfs.ext4", "mkfs.ext2", "debugfs");
        for (String kind : List.of("mkfs.ext4", "mkfs.ext2")) {
            Path image = volume("way-" + kind + ".img", 24, kind, "-q", "-F", "-b", "1024");
            Tool.run(Map.of(), null, 20, "debugfs", "-w", "-R", "mkdir /inner", image.toString());
            Tool.run(Map.of(), null, 20, "debugfs", "-w", "-R", "write " + payload() + " /inner/payload.bin", image.toString());
            String said = Tool.run(Map.of("DEBUGFS_PAGER", "cat"), null, 20, "debugfs", "-R", "bmap /inner/payload.bin 0", image.toString()).out();
            String block = said.lines().filter(line -> line.matches("\\d+")).findFirst().orElseThrow(() -> new AssertionError(said));
            long at = contentByte(image, "inner/payload.bin");
            assertEquals(Long.parseLong(block) * 1024, at, said);
            assertPayload(image, at);
        }
    }

    @Test
    void theCommandWritesSheetsAndSaysWhatItNeeds() throws Exception {
        Path image = Demo.write(folder, Demo.Variant.MBR_SOUND).image();
        Path html = folder.resolve("way.html");
        Path pdf = folder.resolve("way.pdf");
        assertEquals(2, Cli.run("explain", image, "--way", "/").status());
        assertEquals(2, Cli.run("explain", image, "--way", "/", "--volume", 9).status());
        Cli said = Cli.run("explain", image, "--way", "catalogue.zip", "--volume", 2, "--sheet", html, "--language", "de");
        assertEquals(0, said.status(), said.err());
        assertTrue(said.out().contains("NTFS-Startsektor") && Files.readString(html).contains("<html lang=\"de\""), said.out());
        assertEquals(0, Cli.run("explain", image, "--way", "catalogue.zip", "--volume", 2, "--sheet", pdf).status());
        assertEquals("%PDF", new String(Arrays.copyOf(Files.readAllBytes(pdf), 4), java.nio.charset.StandardCharsets.US_ASCII));
        assertEquals(6, Cli.run("explain", image, "--way", "catalogue.zip", "--volume", 2, "--sheet", pdf).status());
        assertEquals(5, Cli.run("explain", image, "--way", "nowhere.txt", "--volume", 2).status());
        assertEquals(0, Cli.run("explain", image, "--way", "/", "--volume", 1).status());
    }
}
