package sectorglass.ext;

import java.nio.file.Path;
import java.util.Map;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.testvolumes.ProbeCorpus;

/** Kind, label, identity and block size as the test suite of util-linux expects them. */
class ProbeCorpusTest {
    /** What that suite calls our kinds. */
    private static final Map<String, String> KINDS = Map.of("ext2", "ext2", "ext3", "ext3", "ext4", "ext4");

    @TempDir
    Path folder;

    @TestFactory
    Stream<DynamicTest> corpus() {
        return new ProbeCorpus(folder, expected -> KINDS.get(expected.getOrDefault("ID_FS_TYPE", "")), Map.of()).tests();
    }
}
