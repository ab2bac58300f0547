package sectorglass.practice.disk;

/**
 * One fault as a learner names it.
 *
 * @param lba the sector, or null where none was given
 * @param inSector byte in the sector, or null
 * @param check id of the check, or its words as the form lists them; may be empty
 * @param value the bytes that should stand there, or null
 */
public record Answer(Long lba, Integer inSector, String check, byte[] value) {

    /** Whether nothing was filled in. */
    public boolean empty() {
        return lba == null && inSector == null && check.isBlank() && value == null;
    }
}
