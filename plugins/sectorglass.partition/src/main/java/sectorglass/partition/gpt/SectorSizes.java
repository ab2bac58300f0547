package sectorglass.partition.gpt;

import java.util.ArrayList;
import java.util.List;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorSizeClue;
import sectorglass.image.Window;
import sectorglass.partition.mbr.SectorZero;
import sectorglass.partition.mbr.Slot;

/**
 * Finds the sector size from a GPT header, which stands one sector from the start and names its own LBA, or from boot sectors that
 * stand where the MBR points for one sector size only.
 */
@Component(service = SectorSizeClue.class)
@ServiceProvider(value = SectorSizeClue.class, resolution = Resolution.OPTIONAL)
public final class SectorSizes implements SectorSizeClue {
    private static final int[] SIZES = {512, 1024, 2048, 4096};

    @Override
    public List<Clue> look(SectorImage image) {
        List<Clue> clues = new ArrayList<>();
        for (int size : SIZES) {
            if (sound(image, size, size, 1)) {
                clues.add(new Clue(size, 100, "a sound GPT header that names LBA 1 stands at byte " + size));
            }
            long lba = image.bytes() / size - 1;
            if (lba > 1 && image.bytes() % size == 0 && sound(image, lba * size, size, lba)) {
                clues.add(new Clue(size, 90, "a sound backup GPT header that names LBA " + lba + " stands at byte " + lba * size));
            }
        }
        if (clues.isEmpty()) {
            bySlots(image, clues);
        }
        return clues;
    }

    /** Image byte of a sound primary header for another sector size than the image's, or -1. */
    static long otherSize(SectorImage image) {
        for (int size : SIZES) {
            if (size != image.sectorSize() && sound(image, size, size, 1)) {
                return size;
            }
        }
        return -1;
    }

    /** Reads by byte: the sector size of the image itself may be the wrong one. */
    private static boolean sound(SectorImage image, long at, int size, long lba) {
        if (at + size > image.bytes()) {
            return false;
        }
        GptHeader header = new GptHeader(lba, image.window(at, size));
        return header.good();
    }

    private static void bySlots(SectorImage image, List<Clue> clues) {
        SectorZero zero = SectorZero.of(image);
        if (!zero.isTable()) {
            return;
        }
        for (Slot slot : zero.table().ordinary()) {
            for (int size : SIZES) {
                long at = slot.first() * size;
                if (at + 512 > image.bytes() || slot.first() == 0) {
                    continue;
                }
                Window sector = image.window(at, 512);
                if (sector.isRead(0, 512) && sector.matches(510, 0x55, 0xAA) && sector.u16le(11) == size) {
                    boolean agrees = sector.u32le(28) == slot.first();
                    clues.add(new Clue(size, agrees ? 70 : 30, "MBR slot " + slot.index() + " points at sector " + slot.first()
                            + "; a boot sector for sectors of " + size + " bytes stands at byte " + at));
                }
            }
        }
    }
}
