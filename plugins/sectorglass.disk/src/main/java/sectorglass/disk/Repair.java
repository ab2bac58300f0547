package sectorglass.disk;

import java.util.List;

import sectorglass.image.ByteRange;

/**
 * A correction that a provider can prove or offers for agreement: bytes that would stand over those of the image. Nothing is written.
 *
 * @param id stable, lower case, format first: {@code gpt.primary}, {@code mbr.from-volumes}
 * @param title one line for people
 * @param reason why these bytes, in words
 * @param confidence 1 to 100: 90 and more where a copy with a checksum determines all bytes, 60 where several structures agree, below 40 for
 *     a guess
 * @param agreement whether a person has to agree first, because the change takes the stored fields for right
 * @param changes ranges in ascending order that do not overlap; at least one
 * @param against what speaks against it, in words; may be empty
 * @param kept fields that are not known and stay as they stand
 */
public record Repair(String id, String title, String reason, int confidence, boolean agreement, List<Change> changes,
        List<String> against, List<Kept> kept) {

    /** @throws IllegalArgumentException where nothing is changed */
    public Repair {
        if (changes.isEmpty()) {
            throw new IllegalArgumentException("a repair without a change: " + id);
        }
        changes = List.copyOf(changes);
        against = List.copyOf(against);
        kept = List.copyOf(kept);
    }

    /**
     * New bytes for one range.
     *
     * @param firstByte image byte of the first one
     * @param bytes the new bytes; not copied, not to be changed afterwards
     * @param why what they are and where they come from, in words
     */
    public record Change(long firstByte, byte[] bytes, String why) {

        /** The image bytes. */
        public ByteRange range() {
            return new ByteRange(firstByte, bytes.length);
        }
    }

    /**
     * A field that stays as it stands.
     *
     * @param where its image bytes
     * @param field its name in the standard
     * @param why why nothing determines it, in words
     */
    public record Kept(ByteRange where, String field, String why) { }
}
