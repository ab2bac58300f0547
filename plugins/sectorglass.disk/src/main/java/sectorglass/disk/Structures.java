package sectorglass.disk;

import java.util.List;
import java.util.Optional;

/** Knows structures by their place. */
public interface Structures {

    /** The structures a person would start with, by address: headers, copies, the first records. Never more than some hundreds. */
    List<Structure> structures();

    /** The innermost structure that holds the image byte, also one that is not listed. */
    default Optional<Structure> structureAt(long imageByte) {
        Structure found = null;
        for (Structure structure : structures()) {
            if (structure.range().contains(imageByte)
                    && (found == null || structure.range().length() < found.range().length())) {
                found = structure;
            }
        }
        return Optional.ofNullable(found);
    }
}
