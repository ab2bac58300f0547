package sectorglass.workbench.model;

import sectorglass.image.SectorRange;

/**
 * Something found on the disk that the strip shows above its partitions.
 *
 * @param sectors where it lies
 * @param present whether it is in use; what is left over is drawn weaker
 * @param text for the tip
 */
public record FoundRange(SectorRange sectors, boolean present, String text) { }
