package sectorglass.disk;

import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/** Reads the bytes of a structure, with its fix-ups put over the stored bytes where it has some. */
@FunctionalInterface
public interface StructureReader {

    /** The window of the structure, addresses and read states kept. */
    Window read(SectorImage image);
}
