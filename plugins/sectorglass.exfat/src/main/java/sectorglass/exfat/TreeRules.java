package sectorglass.exfat;

import java.util.List;

/** The rules that the full check answers, by what they need. */
final class TreeRules {

    /** Rules about the entries of directories. */
    static final List<String> OF_ENTRIES = List.of("exfat.set-checksum", "exfat.set-shape", "exfat.name-length", "exfat.name-hash",
            "exfat.valid-length", "exfat.start-in-range", "exfat.contiguous-run-fits", "exfat.directory-length", "exfat.nothing-after-end",
            "exfat.critical-only-in-root", "exfat.timestamps-legal");
    /** Rules about clusters. */
    static final List<String> OF_CHAINS = List.of("exfat.chain-sound", "exfat.no-shared-clusters");

    private TreeRules() {
    }
}
