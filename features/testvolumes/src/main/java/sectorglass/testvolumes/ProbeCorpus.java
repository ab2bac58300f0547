package sectorglass.testvolumes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;

import sectorglass.disk.Claim;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeProvider;
import sectorglass.image.Providers;
import sectorglass.testkit.Corpus;

/** Kind, label, identity and block size of the probe images as the test suite of util-linux expects them. */
public final class ProbeCorpus {

    private final Path folder;
    private final Function<Map<String, String>, String> kind;
    private final Map<String, String> remarkable;

    /**
     * What one bundle is tried with.
     *
     * @param folder to unpack into
     * @param kind from the values that the suite expects, our kind of volume, or null where nobody here may claim the image
     * @param remarkable images by the start of their name of which only the kind is compared
     */
    public ProbeCorpus(Path folder, Function<Map<String, String>, String> kind, Map<String, String> remarkable) {
        this.folder = folder;
        this.kind = kind;
        this.remarkable = remarkable;
    }

    /** A test for each image. */
    public Stream<DynamicTest> tests() {
        return Corpus.present() ? Corpus.files("probe-volumes", ".img.xz").stream()
                .map(packed -> DynamicTest.dynamicTest(packed.getFileName().toString(), () -> probe(packed)))
                : Stream.of(DynamicTest.dynamicTest("corpus", () -> Corpus.folder("probe-volumes")));
    }

    private void probe(Path packed) {
        String name = packed.getFileName().toString().replace(".img.xz", "");
        Map<String, String> expected = expected(packed.resolveSibling(name + ".expected"));
        try (DiskFile image = DiskFile.open(Corpus.unpack(packed, folder), 512)) {
            Optional<Claim> best = best(image);
            Optional<String> kindAlone = remarkable.keySet().stream().filter(name::startsWith).map(remarkable::get).findFirst();
            if (kindAlone.isPresent()) {
                assertEquals(kindAlone.get(), best.orElseThrow().kind());
                return;
            }
            String wanted = kind.apply(expected);
            if (wanted == null) {
                assertTrue(best.isEmpty(), () -> "claimed as " + best);
                return;
            }
            assertEquals(wanted, best.orElseThrow().kind());
            compare(expected, provider(wanted).open(best.get()).info(), wanted);
        }
    }

    private static void compare(Map<String, String> expected, VolumeInfo info, String kind) {
        assertEquals(kind, info.kind());
        assertEquals(expected.get("ID_FS_UUID"), info.uuid());
        assertEquals(expected.get("ID_FS_LABEL"), info.label() == null ? null : info.label().replace(' ', '_'));
        if (expected.containsKey("ID_FS_FSBLOCKSIZE")) {
            assertEquals(Long.valueOf(expected.get("ID_FS_FSBLOCKSIZE")), info.clusterBytes());
        }
    }

    private static Map<String, String> expected(Path file) {
        Map<String, String> values = new HashMap<>();
        try {
            for (String line : Files.readAllLines(file)) {
                int equals = line.indexOf('=');
                values.put(line.substring(0, equals), line.substring(equals + 1));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return values;
    }

    private static Optional<Claim> best(DiskFile image) {
        List<VolumeProvider> providers = Providers.all(VolumeProvider.class);
        return providers.stream().map(p -> p.recognise(image.site())).flatMap(Optional::stream)
                .max(Comparator.comparingInt(Claim::confidence));
    }

    private static VolumeProvider provider(String kind) {
        return Providers.all(VolumeProvider.class).stream().filter(p -> p.kinds().contains(kind)).findFirst().orElseThrow();
    }
}
