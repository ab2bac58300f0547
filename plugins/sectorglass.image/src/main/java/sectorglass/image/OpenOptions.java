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
 * @param partList a part list file, or null; the path to open is then only a name
 * @param alone whether the file is the whole image although files with further numbers lie beside it
 * @param rawAnyway whether the file is opened as raw although it looks like a compressed or virtual-disk container
 * @param dumpForm how the disk lies in the files; null: found from landmarks
 * @param logFile a text log file, or null
 * @param log how the text log is read; not null where there is a text log file
 * @param locale language of messages and remarks
 */
public record OpenOptions(int sectorSize, Path readMap, boolean deviceAnyway, List<GivenPart> parts, Path partList,
        boolean alone, boolean rawAnyway, DumpForm dumpForm, Path logFile, TextLog log, Locale locale) {

    /** Everything found out, nothing unusual allowed, messages in English. */
    public static final OpenOptions DEFAULT = new OpenOptions(0, null, false, List.of(), null, false, false, null, null, null,
            Locale.ENGLISH);

    /** @throws IllegalArgumentException for a sector size that is none, or a log file without a reading */
    public OpenOptions {
        if (sectorSize != 0 && (Integer.bitCount(sectorSize) != 1 || sectorSize < 512 || sectorSize > 4096)) {
            throw new IllegalArgumentException("sectorSize=" + sectorSize);
        }
        if (logFile != null && log == null) {
            throw new IllegalArgumentException("logFile=" + logFile + " log=null");
        }
        parts = List.copyOf(parts);
    }

    /** With a sector size; 0 to find it. */
    public OpenOptions withSectorSize(int changed) {
        return new OpenOptions(changed, readMap, deviceAnyway, parts, partList, alone, rawAnyway, dumpForm, logFile, log, locale);
    }

    /** With a read map file, or null for none. */
    public OpenOptions withReadMap(Path changed) {
        return new OpenOptions(sectorSize, changed, deviceAnyway, parts, partList, alone, rawAnyway, dumpForm, logFile, log, locale);
    }

    /** With block devices allowed or not. */
    public OpenOptions withDeviceAnyway(boolean changed) {
        return new OpenOptions(sectorSize, readMap, changed, parts, partList, alone, rawAnyway, dumpForm, logFile, log, locale);
    }

    /** With the parts of a chunk set in order. */
    public OpenOptions withParts(List<Path> changed) {
        return withGivenParts(changed.stream().map(file -> new GivenPart(file, GivenPart.WHOLE)).toList());
    }

    /** With the parts of a chunk set in order, missing ones among them; none: found by their numbers. */
    public OpenOptions withGivenParts(List<GivenPart> changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, changed, partList, alone, rawAnyway, dumpForm, logFile, log, locale);
    }

    /** With a part list file, or null for none. */
    public OpenOptions withPartList(Path changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, changed, alone, rawAnyway, dumpForm, logFile, log, locale);
    }

    /** Without looking for further parts, or with. */
    public OpenOptions withAlone(boolean changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, partList, changed, rawAnyway, dumpForm, logFile, log, locale);
    }

    /** With containers opened as raw or not. */
    public OpenOptions withRawAnyway(boolean changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, partList, alone, changed, dumpForm, logFile, log, locale);
    }

    /** With a dump form; null to find it. */
    public OpenOptions withDumpForm(DumpForm changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, partList, alone, rawAnyway, changed, logFile, log, locale);
    }

    /** With a language. */
    public OpenOptions withLocale(Locale changed) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, partList, alone, rawAnyway, dumpForm, logFile, log, changed);
    }

    /** With a text log and how it is read, or null and null for none. */
    public OpenOptions withLog(Path file, TextLog reading) {
        return new OpenOptions(sectorSize, readMap, deviceAnyway, parts, partList, alone, rawAnyway, dumpForm, file, reading, locale);
    }
}
