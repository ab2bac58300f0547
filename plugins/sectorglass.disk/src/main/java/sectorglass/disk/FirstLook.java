package sectorglass.disk;

import java.time.Instant;
import java.util.List;

/**
 * What a person wants to know of an unknown image before anything else.
 *
 * @param samples how many of the sampled places are of each kind
 * @param identities disk signatures, GUIDs, labels, serials: kind, value and where they come from
 * @param latestDate latest date met in volumes, or null
 * @param remarks sentences: what is odd, what it may mean
 * @param nominal nominal capacity, or null where none is near
 */
public record FirstLook(Samples samples, List<Identity> identities, Instant latestDate, List<String> remarks, Nominal nominal) {

    /**
     * Numbers of sampled places.
     *
     * @param zero nothing but zero
     * @param repeated one other byte, or a pattern of up to 16 bytes, repeated
     * @param text printable text
     * @param structure begins with the signature of a known structure
     * @param highEntropy bytes as even as chance: compressed, encrypted or media content
     * @param other none of these
     * @param unread not read
     */
    public record Samples(int zero, int repeated, int text, int structure, int highEntropy, int other, int unread) {

        /** Places that were read. */
        public int read() {
            return zero + repeated + text + structure + highEntropy + other;
        }
    }

    /**
     * Something that tells this disk from others.
     *
     * @param kind {@code disk signature}, {@code disk GUID}, {@code partition GUID}, {@code label}, {@code serial}, {@code uuid}
     * @param value as the trade writes it
     * @param where in words: the map or the partition
     */
    public record Identity(String kind, String value, String where) { }
}
