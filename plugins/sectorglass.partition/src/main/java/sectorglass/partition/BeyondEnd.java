package sectorglass.partition;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.SectorImage;
import sectorglass.verify.Phrase;

/** What may be the reason that a table names sectors beyond the end of the image; every cause that fits is listed. */
public final class BeyondEnd {

    private BeyondEnd() {
    }

    /**
     * The causes as phrases {@code cause.…} of the rule.
     *
     * @param sectors number of sectors that the table asks for, compared as unsigned
     */
    public static List<Phrase> causes(long sectors, SectorImage image) {
        List<Phrase> causes = new ArrayList<>();
        causes.add(Phrase.of("cause.short-image"));
        causes.add(Phrase.of("cause.clipped-capacity"));
        for (int size = 512; size < image.sectorSize(); size *= 2) {
            if (Long.compareUnsigned(sectors, image.bytes() / size) <= 0) {
                causes.add(new Phrase("cause.sector-size", java.util.Map.of("size", size)));
                break;
            }
        }
        causes.add(Phrase.of("cause.set-member"));
        causes.add(Phrase.of("cause.wrong-table"));
        return causes;
    }
}
