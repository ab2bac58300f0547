package sectorglass.practice.lesson.disk;

import java.util.List;

import sectorglass.image.ReadState;
import sectorglass.make.DiskDescription;

/**
 * A lesson disk to be made.
 *
 * @param name its name
 * @param description the sound disk
 * @param damages what is changed afterwards; their places are found on the sound disk
 * @param unread what counts as not read
 */
public record DiskPlan(String name, DiskDescription description, List<Damage> damages, List<Unread> unread) {

    /**
     * Changed bytes.
     *
     * @param place expression
     * @param bytes put there, in hex; null where {@code number} or {@code fill} is given
     * @param number expression, put there little-endian in the length of the place, or null
     * @param fill byte that fills the place, or -1
     */
    public record Damage(String place, byte[] bytes, String number, int fill) { }

    /**
     * Sectors that were not read.
     *
     * @param place expression; all sectors that it touches
     * @param state their state
     */
    public record Unread(String place, ReadState state) { }
}
