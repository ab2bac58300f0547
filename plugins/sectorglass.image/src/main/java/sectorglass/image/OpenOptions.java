package sectorglass.image;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/**
 * How an image is to be opened. Start with {@link #DEFAULT}.
 *
 * @param sectorSize 512, 1024, 2048 or 4096; 0: found from structures
 * @param readMap a read map file, or null
 * @param deviceAnyway whether a block device may be opened
 * @param parts the parts of a chunk set in order; empty: found by their numbers
 * @param partList a part list file, or null
 * @param alone whether the file is the whole image although files with further numbers lie beside it
 * @param rawAnyway whether the file is opened as raw although it looks like a compressed or virtual-disk container
 * @param locale language of messages and remarks
 */
public record OpenOptions(int sectorSize, Path readMap, boolean deviceAnyway, List<Path> parts, Path partList, boolean alone,
        boolean rawAnyway, Locale locale) {

    /** Everything found out, nothing unusual allowed, messages in English. */
    public static final OpenOptions DEFAULT = new OpenOptions(0, null, false, List.of(), null, false, false, Locale.ENGLISH);

    /** @throws IllegalArgumentException for a sector size that is none */
    public OpenOptions {
        if (sectorSize != 0 && (Integer.bitCount(sectorSize) != 1 || sectorSize < 512 || sectorSize > 4096)) {
            throw new IllegalArgumentException("sectorSize=" + sectorSize);
        }
        parts = List.copyOf(parts);
    }

    /** With a sector size. */
    public OpenOptions withSectorSize(int changed) {
        return new OpenOptions(changed, readMap, deviceAnyway, parts, partList, alone, rawAnyway, locale);
    }

    /** With a read map file, or null for none. */
    public OpenOptions withReadMap(Path changed) {
        return new OpenOptions(sectorSize, changed, deviceAnyway, parts, partList, alone, rawAnyway, locale);
    }

    /** With block devices allowed or not. */
    public OpenOptions withDeviceAnyway(boolean changed) {
        return new OpenOptions(sectorSize, readMap, changed, parts, partList, alone, rawAnyway, locale);
    }

    /** With the parts of a chunk set in order. */
    public OpenOptions withParts(List<Path> changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, changed, partList, alone, rawAnyway, locale);
    }

    /** With a part list file, or null for none. */
    public OpenOptions withPartList(Path changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, changed, alone, rawAnyway, locale);
    }

    /** Without looking for further parts. */
    public OpenOptions withAlone(boolean changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, partList, changed, rawAnyway, locale);
    }

    /** With containers opened as raw or not. */
    public OpenOptions withRawAnyway(boolean changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, partList, alone, changed, locale);
    }

    /** With a language. */
    public OpenOptions withLocale(Locale changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, partList, alone, rawAnyway, changed);
    }
}
