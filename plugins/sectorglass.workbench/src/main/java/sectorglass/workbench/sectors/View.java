package sectorglass.workbench.sectors;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;

/**
 * What the canvas shows besides bytes.
 *
 * @param image the sectors
 * @param caret image byte of the caret
 * @param selection selected bytes, or null
 * @param field bytes of the field at the caret, or null
 * @param focus whether the canvas has the keyboard
 */
record View(SectorImage image, long caret, ByteRange selection, ByteRange field, boolean focus) { }
