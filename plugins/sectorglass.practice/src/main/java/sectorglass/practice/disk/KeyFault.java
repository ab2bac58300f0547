package sectorglass.practice.disk;

import java.util.List;

/**
 * A planted fault, as the key has it.
 *
 * @param kind name of its kind
 * @param check id of the check that finds it
 * @param words what the check asks for, in words
 * @param places the changed bytes, the main place first: of a fault in two copies, both
 * @param seenByte image byte at which the check points
 * @param volume number of the volume, or null where it lies in a map
 * @param what what is wrong, one sentence
 * @param means what it means
 * @param advice what to do
 * @param source which standard says so
 */
public record KeyFault(String kind, String check, String words, List<Place> places, long seenByte, Integer volume, String what, String means, String advice,
        String source) { }
