package sectorglass.disk;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;

/**
 * How many sectors of a range were read.
 *
 * @param read whose bytes are data
 * @param failed tried in vain
 * @param skipped put off
 * @param unread not tried, or beyond the end of the image
 */
public record ReadCount(long read, long failed, long skipped, long unread) {

    /** Counts the sectors of a range. */
    public static ReadCount of(SectorImage image, SectorRange range) {
        long[] counts = new long[ReadState.values().length];
        for (ReadState state : ReadState.values()) {
            counts[state.ordinal()] = image.inState(state, range).count();
        }
        return new ReadCount(counts[ReadState.READ.ordinal()], counts[ReadState.FAILED.ordinal()], counts[ReadState.SKIPPED.ordinal()],
                counts[ReadState.UNREAD.ordinal()]);
    }

    /** Counts the sectors of a partition; of one that a set puts together, in the disks that are in hand. Null where it has none. */
    public static ReadCount of(SectorImage image, Partition partition) {
        if (partition.placed()) {
            return of(image, partition.range());
        }
        return partition.volume() == null ? null : of(partition.volume().site().image(), partition.volume().site().range());
    }

    /** Counts the sectors that a volume says it fills; null where these are those of its partition. */
    public static ReadCount of(Volume volume) {
        SectorRange own = volume.info().range();
        return own == null || own.equals(volume.site().range()) ? null : of(volume.site().image(), own);
    }

    /** Whether all were read. */
    public boolean whole() {
        return failed == 0 && skipped == 0 && unread == 0;
    }

    /** A count by its state. */
    public long of(ReadState state) {
        return switch (state) {
            case READ -> read;
            case FAILED -> failed;
            case SKIPPED -> skipped;
            case UNREAD -> unread;
        };
    }
}
