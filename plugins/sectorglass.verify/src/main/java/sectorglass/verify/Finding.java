package sectorglass.verify;

import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;

/**
 * One verdict with everything a person needs.
 *
 * @param id running number in one run, from 1 in address order
 * @param check id of the rule
 * @param verdict the answer
 * @param severity null unless failed
 * @param where the image bytes it is about
 * @param structure the image bytes of the structure it belongs to
 * @param stored what was found, or null
 * @param computed what the rule asks for, or null
 * @param what what is wrong, one sentence
 * @param means what it means for the person
 * @param advice what to do
 * @param source which standard says so
 * @param volume number of the volume, or null
 * @param reason why it was not checked, or null
 * @param missing sectors that prevent the check; empty unless not checked
 * @param cause id of the finding this follows from, or null
 * @param count 1 and the number of findings folded under this one
 * @param values the values the checker gave, for tables
 */
public record Finding(int id, String check, Verdict verdict, Severity severity, ByteRange where, ByteRange structure,
        String stored, String computed, String what, String means, String advice, String source, Integer volume, String reason,
        SectorRanges missing, Integer cause, int count, Map<String, Object> values) { }
