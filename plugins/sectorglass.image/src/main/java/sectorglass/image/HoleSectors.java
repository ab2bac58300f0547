package sectorglass.image;

import java.util.List;
import java.util.Optional;

/** Turns the holes of files into sectors of the image. */
final class HoleSectors {

    private HoleSectors() {
    }

    /** The sectors that lie wholly in holes; nothing where the holes of one of the files are not known. */
    static Optional<SectorRanges> of(List<ImagePart> parts, DumpForm form, int sectorSize, long sectors) {
        SectorRanges.Builder builder = new SectorRanges.Builder();
        long from = 0;
        long to = 0;
        for (ImagePart part : parts) {
            if (part.missing()) {
                continue;
            }
            Optional<Holes> holes = Holes.of(part.file());
            if (holes.isEmpty()) {
                return Optional.empty();
            }
            for (ByteRange hole : holes.get().ranges()) {
                long start = part.start() + Math.min(hole.start(), part.bytes());
                long end = part.start() + Math.min(hole.end(), part.bytes());
                ByteRange image = form.image(new ByteRange(start, end - start));
                if (image.start() != to) {
                    add(builder, from, to, sectorSize, sectors);
                    from = image.start();
                }
                to = image.end();
            }
        }
        add(builder, from, to, sectorSize, sectors);
        return Optional.of(builder.build());
    }

    private static void add(SectorRanges.Builder builder, long from, long to, int sectorSize, long sectors) {
        long first = from % sectorSize == 0 ? from / sectorSize : from / sectorSize + 1;
        long end = Math.min(sectors, to / sectorSize);
        if (end > first) {
            builder.add(first, end - first);
        }
    }
}
