package sectorglass.practice.lesson.judge;

import java.util.Locale;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.Texts;
import sectorglass.practice.lesson.Judgement;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.Words;
import sectorglass.practice.lesson.place.Expressions;
import sectorglass.practice.lesson.place.Filling;
import sectorglass.practice.lesson.place.Ground;
import sectorglass.practice.lesson.place.Spot;

/**
 * What every judge needs.
 *
 * @param ground the disk
 * @param texts the general explanations
 */
public record Bench(Ground ground, Texts texts) {

    /** The language. */
    Locale locale() {
        return texts.locale();
    }

    /** A place. */
    public Spot spot(String place) {
        return Expressions.place(place).in(ground);
    }

    /** Words with the disk's values put in. */
    public String filled(Words words) {
        return words == null ? "" : Filling.of(words.in(locale())).in(ground);
    }

    Judgement right(Step step) {
        return new Judgement(true, filled(step.right()), null);
    }

    Judgement own(Words why) {
        return new Judgement(false, filled(why), "own");
    }

    /** A wrong answer that nothing explains. */
    Judgement otherwise(Step step) {
        return new Judgement(false, filled(step.otherwise()), null);
    }

    /** A wrong answer that a general pattern explains. */
    Judgement pattern(String name, Object... values) {
        return new Judgement(false, texts.of("wrong." + name, values), name);
    }

    /** Where bytes lie, in words: the LBA and the byte in it. */
    String where(long imageByte) {
        return texts.of("where", Filling.grouped(imageByte / ground.sectorSize()), Filling.grouped(imageByte % ground.sectorSize()));
    }

    /** The field that holds an image byte, or null. */
    FieldNode fieldAt(long imageByte) {
        Structure structure = ground.structureAt(imageByte);
        return structure == null ? null : FieldWalk.at(ground.fields(structure), imageByte);
    }

    /** What holds an image byte that is not the right one, explained; null where nothing is known there. */
    Judgement belongs(long imageByte) {
        FieldNode field = fieldAt(imageByte);
        if (field != null && field.label() != null && !field.label().isBlank()) {
            return pattern("other-field", field.label(), where(imageByte));
        }
        Structure structure = ground.structureAt(imageByte);
        return structure == null ? null : pattern("other-structure", structure.name(), where(imageByte));
    }

    /** Whether a byte stands where the right one would, but in another sector. */
    boolean sameInOtherSector(long imageByte, ByteRange right) {
        int size = ground.sectorSize();
        return imageByte / size != right.start() / size && imageByte % size == right.start() % size;
    }
}
