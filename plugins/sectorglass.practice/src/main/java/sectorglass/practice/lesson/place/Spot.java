package sectorglass.practice.lesson.place;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;

/**
 * A place that was found.
 *
 * @param range its image bytes, at least one
 * @param structure the structure that was named, or null where only bytes were
 * @param field the field that was named, or null
 */
public record Spot(ByteRange range, Structure structure, FieldNode field) {

    static Spot bytes(long start, long length) {
        return new Spot(new ByteRange(start, length), null, null);
    }

    static Spot of(Structure structure) {
        return new Spot(structure.range(), structure, null);
    }
}
