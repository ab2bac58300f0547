package sectorglass.recovery.propose;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;

/**
 * Places where partitions usually begin, without a search of the whole image: boundaries of 1 MiB, and sector 63. Common practice, no
 * source. Places whose first bytes are zeros are left out.
 */
public final class BoundarySites {
    private static final long STEP = 1L << 20;
    /** Places looked at: the first 8 GiB. What begins later is found by a search. */
    private static final int MOST = 8192;
    private static final int HEAD = 72 << 10;
    private static final int TRACK = 63;

    private BoundarySites() {
    }

    /** The places of an image at which something stands. */
    public static Sites of(SectorImage image, Progress progress) {
        List<SectorRange> places = new ArrayList<>();
        int size = image.sectorSize();
        add(image, (long) TRACK * size, places);
        for (int i = 1; i <= MOST && i * STEP < image.bytes(); i++) {
            progress.checkCancelled();
            add(image, i * STEP, places);
        }
        return new Sites(List.copyOf(places));
    }

    private static void add(SectorImage image, long at, List<SectorRange> places) {
        if (at + HEAD > image.bytes()) {
            return;
        }
        Window head = image.window(at, HEAD);
        for (byte b : head.raw(0, HEAD)) {
            if (b != 0) {
                places.add(new SectorRange(at / image.sectorSize(), 0));
                return;
            }
        }
    }
}
