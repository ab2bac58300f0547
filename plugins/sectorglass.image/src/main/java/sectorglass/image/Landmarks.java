package sectorglass.image;

import java.util.List;

/** Names bytes that stand at known places of a disk; a provider. They tell in which form a disk was dumped. */
public interface Landmarks {

    /**
     * Bytes at a known place.
     *
     * @param structure what they belong to, in words
     * @param lba the sector they stand in, or -1 where that may be any
     * @param offset of the first one in the sector
     * @param bytes what stands there, 2 to 64 bytes
     * @param weight 1 (short, met by chance) to 60 (a long text)
     */
    record Landmark(String structure, long lba, int offset, byte[] bytes, int weight) { }

    /** The landmarks; the same on each call. */
    List<Landmark> landmarks();
}
