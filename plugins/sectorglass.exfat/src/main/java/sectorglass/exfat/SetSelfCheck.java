package sectorglass.exfat;

import java.util.Optional;

import sectorglass.disk.SelfCheck;
import sectorglass.disk.Structure;
import sectorglass.image.SectorImage;

/** Whether the checksum of a directory entry set holds. Source: Microsoft exFAT specification, section 6.3.3. */
final class SetSelfCheck implements SelfCheck {
    private static final int FILE = 0x05;
    private static final int IN_USE = 0x80;
    private static final int MOST_ENTRIES = 19;

    @Override
    public Optional<Boolean> holds(Structure structure, SectorImage image) {
        long length = structure.range().length();
        if (!structure.name().equals("directory entry set") || length < 2 * Directory.SLOT || length > MOST_ENTRIES * Directory.SLOT || length % Directory.SLOT != 0) {
            return Optional.empty();
        }
        byte[] bytes = new byte[(int) length];
        if (!image.read(structure.range().start(), bytes, 0, bytes.length).allRead()) {
            return Optional.empty();
        }
        int entries = bytes.length / Directory.SLOT;
        boolean whole = (bytes[0] & ~IN_USE & 0xFF) == FILE && (bytes[1] & 0xFF) + 1 == entries;
        int stored = bytes[2] & 0xFF | (bytes[3] & 0xFF) << 8;
        return Optional.of(whole && SetSum.of(bytes, 0, entries, (bytes[0] & IN_USE) == 0 ? IN_USE : 0) == stored);
    }
}
