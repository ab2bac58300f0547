package sectorglass.volumes;

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
    private static final Map<String, String> KINDS = Map.ofEntries(Map.entry("btrfs", "btrfs"), Map.entry("xfs", "xfs"),
            Map.entry("f2fs", "f2fs"), Map.entry("swap", "swap"), Map.entry("iso9660", "iso9660"), Map.entry("udf", "udf"),
            Map.entry("LVM2_member", "lvm2"), Map.entry("linux_raid_member", "md"), Map.entry("crypto_LUKS1", "luks1"),
            Map.entry("crypto_LUKS2", "luks2"), Map.entry("BitLocker2", "bitlocker"));

    @TempDir
    Path folder;

    @TestFactory
    Stream<DynamicTest> corpus() {
        // of an image with several sessions only the first is looked at here; the suite gives the place of the session by an option
        return new ProbeCorpus(folder, ProbeCorpusTest::kind, Map.of("iso-multi", "iso9660")).tests();
    }

    private static String kind(Map<String, String> expected) {
        String type = expected.getOrDefault("ID_FS_TYPE", "");
        return KINDS.get(type.equals("crypto_LUKS") || type.equals("BitLocker") ? type + expected.get("ID_FS_VERSION") : type);
    }
}
