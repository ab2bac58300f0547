package sectorglass.fat;

import java.util.List;

/** The rules that the full check answers, by what they need. */
final class TreeRules {

    /** Rules about the slots of directories. */
    static final List<String> OF_SLOTS = List.of("fat.name-legal", "fat.name-unique", "fat.attribute-legal", "fat.date-legal",
            "fat.long-name-order", "fat.long-name-checksum", "fat.long-name-padding", "fat.long-name-has-short", "fat.one-label",
            "fat.nothing-after-end-slot", "fat.entry-start-in-range", "fat.empty-file-no-cluster", "fat.directory-size-zero",
            "fat.directory-has-cluster");
    /** Rules about chains. */
    static final List<String> OF_CHAINS = List.of("fat.chain-no-loop", "fat.chain-no-cross-link", "fat.chain-no-free-or-bad",
            "fat.chain-length-matches-size", "fat.directory-size-limit", "fat.dot-entries");

    private TreeRules() {
    }
}
