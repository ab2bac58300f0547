package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Disk;
import sectorglass.disk.MapEntry;
import sectorglass.testkit.Corpus;

/** Partition tables that others made, with what libblkid expects of them. */
class CorpusTest {
    private static final Pattern LINE = Pattern.compile("#(\\d+):\\s+(\\d+)\\s+(\\d+)\\s+0x(\\w+)(.*)");

    @TempDir
    Path folder;

    private Look look(String name) throws Exception {
        Path packed = Corpus.folder("probe-partitions").resolve(name + ".img.xz");
        return Look.at(Memory.of(Files.readAllBytes(Corpus.unpack(packed, folder)), 512));
    }

    /** Kinds of map by the word that libblkid has for them; the rest are not known here. */
    private static final Set<String> KNOWN = Set.of("dos", "gpt", "mac", "bsd", "sun", "sgi");

    @TestFactory
    Stream<DynamicTest> everyImageIsToldAsExpected() {
        return Corpus.present() ? Corpus.files("probe-partitions", ".img.xz").stream().map(p -> p.getFileName().toString().replace(".img.xz", ""))
                .map(name -> DynamicTest.dynamicTest(name, () -> compare(name)))
                : Stream.of(DynamicTest.dynamicTest("corpus", () -> Corpus.folder("probe-partitions")));
    }

    private void compare(String name) throws Exception {
        List<String> lines = Files.readAllLines(Corpus.folder("probe-partitions").resolve(name + ".expected"));
        Matcher kind = Pattern.compile("PT: (\\w+)").matcher(lines.get(0));
        assertTrue(kind.find(), lines.get(0));
        if (KNOWN.contains(kind.group(1))) {
            partitionsAsExpected(look(name), kind.group(1), lines);
        } else {
            notKnownHere(look(name));
        }
    }

    private static void partitionsAsExpected(Look look, String kind, List<String> lines) {
        List<String> expected = new ArrayList<>();
        for (String line : lines) {
            Matcher m = LINE.matcher(line);
            if (m.matches()) {
                Matcher guid = Pattern.compile("type='([^']*)'").matcher(m.group(5));
                String type = guid.find() ? guid.group(1) : m.group(4).length() < 2 ? "0" + m.group(4) : m.group(4);
                expected.add(m.group(2) + "+" + m.group(3) + " " + type);
            }
        }
        List<String> found = look.disk().maps().stream().map(Disk.FoundMap::map)
                .filter(m -> m.copy() == sectorglass.disk.PartitionMap.Copy.PRIMARY).flatMap(m -> m.entries().stream())
                .filter(e -> e.use() != MapEntry.Use.PROTECTIVE).map(e -> e.range().first() + "+" + e.range().count() + " " + e.type()).toList();
        assertTrue(found.containsAll(expected), found + " against " + expected);
        List<String> listed = new ArrayList<>(expected);
        listed.removeIf(line -> kind.equals("sgi") && line.endsWith(" 06"));
        assertEquals(listed, look.partitions());
    }

    private static void notKnownHere(Look look) {
        assertEquals(List.of(), look.disk().maps());
        assertEquals(List.of(), look.findings().all());
    }

    @Test
    void volumesAreNotTakenForTables() throws Exception {
        List<String> taken = new ArrayList<>();
        for (Path packed : Corpus.files("probe-volumes", ".img.xz")) {
            Path image = Corpus.unpack(packed, folder);
            byte[] head;
            long size = Files.size(image);
            try (var in = Files.newInputStream(image)) {
                head = in.readNBytes(1 << 20);
            }
            Files.delete(image);
            Look look = Look.at(Memory.of(head, 512).resize(size));
            if (!look.partitions().isEmpty()) {
                taken.add(packed.getFileName() + " " + look.disk().maps().stream().map(f -> f.map().kind()).toList());
            }
        }
        assertEquals(List.of(), taken);
        try (Stream<Path> left = Files.list(folder)) {
            assertEquals(0, left.count());
        }
    }
}
