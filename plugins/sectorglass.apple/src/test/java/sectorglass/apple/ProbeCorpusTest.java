package sectorglass.apple;

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
    private static final Map<String, String> KINDS = Map.of("hfs", "hfs", "hfsplus", "hfsplus", "apfs", "apfs",
            "cs_fvault2", "filevault");

    @TempDir
    Path folder;

    @TestFactory
    Stream<DynamicTest> corpus() {
        return new ProbeCorpus(folder, expected -> KINDS.get(expected.getOrDefault("ID_FS_TYPE", "")), Map.of()).tests();
    }
}
