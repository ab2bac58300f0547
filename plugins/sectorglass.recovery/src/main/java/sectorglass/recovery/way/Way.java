package sectorglass.recovery.way;

import java.util.List;

import sectorglass.disk.way.WayStep;

/**
 * A way from LBA 0 to a file.
 *
 * @param volume number of the volume
 * @param path of the file, relative to the volume's root
 * @param sectorSize bytes per sector of the image
 * @param steps in order; where the way is complete the last one shows the first bytes of the file
 * @param contentByte image byte of the file's first byte, or -1 where the way does not lead there; for a folder, of its first entries
 */
public record Way(int volume, String path, int sectorSize, List<WayStep> steps, long contentByte) {

    /** Whether the way leads to the file, and its first bytes were read. */
    public boolean complete() {
        return contentByte >= 0 && steps.get(steps.size() - 1).stop() == null;
    }

    /** The reason why it does not, or null. */
    public String stop() {
        return steps.get(steps.size() - 1).stop();
    }
}
