package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Claim;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeProvider;
import sectorglass.image.Providers;
import sectorglass.testkit.Corpus;

/** Kind, label, identity and block size as the test suite of util-linux expects them. */
class ProbeCorpusTest {
    /** What that suite calls our kinds. */
    private static final Map<String, String> KINDS = Map.of("ext2", "ext2", "ext3", "ext3", "ext4", "ext4");

    @TempDir
    Path folder;

    @TestFactory
    Stream<DynamicTest> corpus() {
        return Corpus.present() ? Corpus.files("probe-volumes", ".img.xz").stream()
                .map(packed -> DynamicTest.dynamicTest(packed.getFileName().toString(), () -> probe(packed)))
                : Stream.of(DynamicTest.dynamicTest("corpus", () -> Corpus.folder("probe-volumes")));
    }

    private void probe(Path packed) throws IOException {
        String name = packed.getFileName().toString().replace(".img.xz", "");
        Map<String, String> expected = expected(packed.resolveSibling(name + ".expected"));
        try (TestImage image = TestImage.of(Corpus.unpack(packed, folder))) {
            Optional<Claim> best = best(image);
            String type = expected.getOrDefault("ID_FS_TYPE", "");
            String kind = KINDS.get(type);
            if (kind == null) {
                assertTrue(best.isEmpty(), () -> "claimed as " + best);
                return;
            }
            assertEquals(kind, best.orElseThrow().kind());
            VolumeInfo info = provider(kind).open(best.get()).info();
            assertEquals(kind, info.kind());
            assertEquals(expected.get("ID_FS_UUID"), info.uuid());
            String label = expected.get("ID_FS_LABEL");
            assertEquals(label, info.label() == null ? null : info.label().replace(' ', '_'));
            if (expected.containsKey("ID_FS_FSBLOCKSIZE")) {
                assertEquals(Long.valueOf(expected.get("ID_FS_FSBLOCKSIZE")), info.clusterBytes());
            }
        }
    }

    private static Map<String, String> expected(Path file) throws IOException {
        Map<String, String> values = new HashMap<>();
        for (String line : Files.readAllLines(file)) {
            int equals = line.indexOf('=');
            values.put(line.substring(0, equals), line.substring(equals + 1));
        }
        return values;
    }

    private static Optional<Claim> best(TestImage image) {
        List<VolumeProvider> providers = Providers.all(VolumeProvider.class);
        return providers.stream().map(p -> p.recognise(image.site())).flatMap(Optional::stream)
                .max(Comparator.comparingInt(Claim::confidence));
    }

    private static VolumeProvider provider(String kind) {
        return Providers.all(VolumeProvider.class).stream().filter(p -> p.kinds().contains(kind)).findFirst().orElseThrow();
    }
}
