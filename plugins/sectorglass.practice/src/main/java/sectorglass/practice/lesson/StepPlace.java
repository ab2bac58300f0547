package sectorglass.practice.lesson;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;

/**
 * Where a step points.
 *
 * @param range image bytes to be shown as chosen; at least one
 * @param structure the structure whose fields are to be shown, or null where none is known there
 * @param field the field to be chosen, or null
 */
public record StepPlace(ByteRange range, Structure structure, FieldNode field) { }
