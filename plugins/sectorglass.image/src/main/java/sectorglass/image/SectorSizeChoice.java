package sectorglass.image;

import java.util.List;

/**
 * The sector size taken and why.
 *
 * @param sectorSize bytes per sector
 * @param reason in words, never empty
 * @param clues what spoke for it; empty where it was set by hand or nothing spoke
 * @param against what speaks for another size
 */
public record SectorSizeChoice(int sectorSize, String reason, List<SectorSizeClue.Clue> clues, List<SectorSizeClue.Clue> against) { }
