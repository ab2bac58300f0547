package sectorglass.make;

/**
 * A fault that was planted on purpose, as data: what {@code verify} has to find.
 *
 * @param check id of the check that must fail
 * @param firstByte first changed byte, counted from the start of the disk
 * @param length changed bytes
 * @param what what was done, one English sentence
 * @param full whether only a full verification reads so far
 */
public record PlantedFault(String check, long firstByte, int length, String what, boolean full) {
}
