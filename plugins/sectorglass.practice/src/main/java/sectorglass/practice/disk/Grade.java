package sectorglass.practice.disk;

import java.util.List;

/**
 * What an answer is worth.
 *
 * @param code of the disk
 * @param name who answered
 * @param points in all, at least 0
 * @param most points that can be had
 * @param count points for the number of faults
 * @param faults one per planted fault, in the order of the key
 * @param wrong answers that name no fault
 * @param consequences answers that name what only follows from a fault: they neither gain nor cost
 */
public record Grade(String code, String name, int points, int most, int count, List<Graded> faults, List<Answer> wrong, List<Answer> consequences) {

    /** Whether everything is right and nothing wrong was named. */
    public boolean perfect() {
        return points == most && wrong.isEmpty();
    }

    /**
     * A planted fault and the answer that names it.
     *
     * @param fault from the key
     * @param answer the answer, or null where nobody named it
     * @param check points for the check
     * @param place points for LBA and byte
     * @param value points for the right bytes
     */
    public record Graded(KeyFault fault, Answer answer, int check, int place, int value) {

        /** All points of this fault. */
        public int points() {
            return check + place + value;
        }
    }
}
