package sectorglass.recovery;

import java.util.List;

import sectorglass.image.SectorRanges;

/**
 * What to read next, in stages; after each the plan is useful alone. No sector stands in two stages, and none that was read stands in
 * any, but for the failed ones of the second pass.
 *
 * @param stages in order
 * @param unread sectors of the disk that were not read yet, failed ones included
 * @param remarks sentences: files whose clusters the map calls free, metadata that is still missing
 */
public record ReadPlan(List<Stage> stages, long unread, List<String> remarks) {

    /**
     * A stage.
     *
     * @param kind what it gives
     * @param volume number of the volume, or null for the whole disk
     * @param ranges the sectors to read
     * @param reason why these, why now
     * @param complete whether what was read so far names all sectors of the stage; if not, it grows once the stages before it were read
     * @param weak whether it holds the part of an earlier stage that a weak head serves
     * @param bridged sectors among them that are read only because leaving them out would take longer
     */
    public record Stage(Kind kind, Integer volume, SectorRanges ranges, String reason, boolean complete, boolean weak, long bridged) {

        /** A stage as it is wanted, before heads and gaps are looked at. */
        public Stage(Kind kind, Integer volume, SectorRanges ranges, String reason, boolean complete) {
            this(kind, volume, ranges, reason, complete, false, 0);
        }

        /** The same with other sectors. */
        Stage with(SectorRanges changed, boolean weakHead, long gaps) {
            return new Stage(kind, volume, changed, reason, complete, weakHead, gaps);
        }

        /** Sectors to read. */
        public long sectors() {
            return ranges.count();
        }
    }

    /** What stages give. */
    public enum Kind {
        HEADS("maps and boot sectors"), FILE_TABLE("file table"), FOLDERS("folders"), OTHER_METADATA("other metadata"),
        CHOSEN("chosen files"), ALLOCATED("allocated clusters"), LATER("paging, hibernation and cache files"),
        NOT_KNOWN("partitions of unknown content"), SECOND_PASS("failed places, second pass"), THIRD_PASS("failed places, third pass"), UNALLOCATED("everything else");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** The words in JSON and texts. */
        public String words() {
            return words;
        }
    }

    /** Sectors in all stages. */
    public long sectors() {
        return stages.stream().mapToLong(Stage::sectors).sum();
    }

    /** Sectors that need not be read, compared with reading all that is unread. */
    public long saved() {
        return Math.max(0, unread - sectors());
    }
}
