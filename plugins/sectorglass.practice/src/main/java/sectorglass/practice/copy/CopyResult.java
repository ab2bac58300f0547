package sectorglass.practice.copy;

import java.util.List;

import sectorglass.image.SectorRanges;
import sectorglass.verify.Finding;

/**
 * What a copy of structures came to.
 *
 * @param sectors that are in the copy
 * @param volumes numbers of the volumes whose structures are in it
 * @param left volumes and maps that are not, in words
 * @param same findings that the copy has as the original does
 * @param gone findings of the original that the copy does not show: they need content, or were in what stays out
 * @param added findings of the copy that the original did not have; empty unless something could not be kept
 */
public record CopyResult(SectorRanges sectors, List<Integer> volumes, List<String> left, List<Finding> same, List<Finding> gone, List<Finding> added) { }
