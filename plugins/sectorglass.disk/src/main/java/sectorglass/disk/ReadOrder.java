package sectorglass.disk;

import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;

/**
 * In which order the metadata of a volume should be read from a failing disk: a capability, see {@link Volume#capability}. What files
 * need is known from their {@link Content#extents}, what else is in use from {@link Allocation}.
 */
public interface ReadOrder {

    /**
     * A stage: after it, the plan is useful alone.
     *
     * @param kind what it gives
     * @param sectors all its sectors in the image, those read already included; may reach beyond its end
     * @param reason in words: why these, why now
     * @param complete whether what was read so far names all sectors of the stage; if not, reading the stages before it will show more
     */
    record Stage(Kind kind, SectorRanges sectors, String reason, boolean complete) { }

    /** What a stage gives, in the usual order. */
    enum Kind {
        /** Boot sectors, superblocks and their copies: where everything else lies. */
        HEADS,
        /** The table of files: names, sizes, places; maps of used clusters come with it. */
        FILE_TABLE,
        /** Folders, where their names are not in the table. */
        FOLDERS,
        /** Further metadata: journals, security, extended attributes. */
        OTHER;

        /** The word in JSON and texts. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
        }
    }

    /** The stages as far as what was read tells; ask again when more was read. */
    List<Stage> stages(Progress progress);
}
