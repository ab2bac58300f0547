package sectorglass.workbench.pages;

import sectorglass.image.SectorStates;

/**
 * A piece of an image in memory.
 *
 * @param bytes its bytes, not to be changed; meaningless where the state is not read
 * @param states read states of its sectors
 */
record Page(byte[] bytes, SectorStates states) { }
