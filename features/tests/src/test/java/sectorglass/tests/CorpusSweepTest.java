package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.testkit.Corpus;

/** Every image of the corpus, sound or damaged, is laid out, verified in full, explained and listed without a fault of ours, in bounded time. */
class CorpusSweepTest {
    private static final List<String> FOLDERS = List.of("probe-partitions", "probe-volumes", "fat-volumes", "fat-damaged", "exfat-damaged",
            "ext-damaged", "ntfs-volumes");
    /** Folders whose images are damaged, each in its own way: every one must be reported. */
    private static final Set<String> DAMAGED = Set.of("fat-damaged", "exfat-damaged");

    @TempDir
    static Path folder;

    @TestFactory
    Stream<DynamicTest> nothingInTheCorpusUpsetsACommand() {
        return FOLDERS.stream().flatMap(name -> Corpus.files(name, "").stream().filter(CorpusSweepTest::image)
                .map(p -> DynamicTest.dynamicTest(name + "/" + p.getFileName(), () -> assertTimeout(Duration.ofSeconds(60), () -> sweep(name, p)))));
    }

    private static boolean image(Path path) {
        String name = path.getFileName().toString();
        return name.matches(".*\\.(xz|gz|bz2)") || name.matches(".*\\.(img|raw|ntfs)");
    }

    private static void sweep(String from, Path packed) throws Exception {
        Path image = Corpus.unpack(packed, folder);
        try {
            Cli layout = Cli.run("layout", image, "--json");
            assertEquals(0, layout.status(), layout.err());
            Cli verify = Cli.run("verify", image, "--full", "--json");
            assertTrue(Set.of(0, 1, 5).contains(verify.status()), verify.err());
            if (DAMAGED.contains(from)) {
                assertTrue(verify.json().get("findings").size() > 0, "a damaged volume that nothing is said about");
            }
            assertEquals(0, Cli.run("explain", image, "--lba", 0).status());
            assertEquals(0, Cli.run("plan", image, "--json").status());
            int volume = 0;
            for (JsonNode partition : layout.json().get("partitions")) {
                volume = partition.get("volume").isNull() ? volume : partition.get("number").asInt();
            }
            volume = layout.json().get("volume").isNull() ? volume : 1;
            if (volume > 0) {
                Cli files = Cli.run("files", image, "--volume", volume, "--json");
                assertTrue(Set.of(0, 2).contains(files.status()), files.err());
            }
        } finally {
            if (!image.equals(packed)) {
                Files.deleteIfExists(image);
            }
        }
    }
}
