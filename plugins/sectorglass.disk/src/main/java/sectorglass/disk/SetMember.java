package sectorglass.disk;

import java.util.List;

import sectorglass.image.Progress;
import sectorglass.verify.Checks;

/** A member of a set of disks or partitions that together hold volumes: a capability, see {@link Volume#capability}. */
public interface SetMember {

    /** Identity of the set: equal for all its members and for nothing else. */
    String set();

    /**
     * The volumes that the set holds. Called on one member of each set. Never throws because of the bytes.
     *
     * @param members all members in hand, this one included, those of the surveyed image first
     * @return in the set's own order; empty where it cannot be put together
     */
    List<SetVolume> assemble(List<Volume> members);

    /** Says, once for the set, what is missing, stale or cannot be put together here. */
    List<String> remarks(List<Volume> members);

    /** Judges whether the members agree with each other; reports nothing where there is nothing to compare. */
    default void check(List<Volume> members, Level level, Checks out, Progress progress) {
    }
}
