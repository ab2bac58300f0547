package sectorglass.ntfs;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.image.DumpForm;
import sectorglass.image.DumpFormClue;
import sectorglass.image.Landmarks;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/**
 * The NTFS boot sector as a landmark, and the place on the disk that it names. Sources: OEM name at 3, bytes per sector at 11, hidden
 * sectors at 28 (Linux kernel fs/ntfs3/ntfs.h, boot sector).
 */
@Component(service = {Landmarks.class, DumpFormClue.class})
@ServiceProvider(value = Landmarks.class, resolution = Resolution.OPTIONAL)
@ServiceProvider(value = DumpFormClue.class, resolution = Resolution.OPTIONAL)
public final class NtfsLandmarks implements Landmarks, DumpFormClue {
    private static final int LARGEST_SECTOR = 4096;
    private static final int LARGEST_TRAILER = 1 << 16;

    @Override
    public List<Landmark> landmarks() {
        return List.of(new Landmark("NTFS boot sector name", -1, 3, "NTFS    ".getBytes(StandardCharsets.US_ASCII), 40));
    }

    @Override
    public List<DumpForm.Clue> look(SectorImage stored) {
        Window boot = stored.window(0, 512);
        if (!boot.isRead(0, 512) || !boot.matches(3, "NTFS    ") || !boot.matches(510, 0x55, 0xAA)) {
            return List.of();
        }
        List<DumpForm.Clue> clues = new ArrayList<>();
        trailer(stored, boot, clues);
        long sectors = boot.u32le(28);
        int size = boot.u16le(11);
        if (sectors <= 0 || Integer.bitCount(size) != 1 || size < 512 || size > LARGEST_SECTOR || sectors > Long.MAX_VALUE / 2 / size) {
            return clues;
        }
        clues.add(new DumpForm.Clue(DumpForm.PLAIN.withFirstImageByte(sectors * size), 30,
                "an NTFS boot sector at stored byte 0 says that its volume begins at sector " + sectors + " of its disk"));
        return clues;
    }

    /** The copy of the boot sector follows the last sector that the volume counts (total sectors at 40): what follows it is no sector of the volume. */
    private static void trailer(SectorImage stored, Window boot, List<DumpForm.Clue> clues) {
        int size = boot.u16le(11);
        long total = boot.u64le(40);
        if (Integer.bitCount(size) != 1 || size < 512 || size > LARGEST_SECTOR || total <= 0 || total >= stored.bytes() / size) {
            return;
        }
        long trailer = stored.bytes() - (total + 1) * size;
        Window copy = stored.window(total * size, 512);
        if (trailer > 0 && trailer <= LARGEST_TRAILER && trailer % size != 0 && copy.isRead(0, 512) && java.util.Arrays.equals(copy.raw(0, 512), boot.raw(0, 512))) {
            clues.add(new DumpForm.Clue(DumpForm.PLAIN.withTrailer(trailer), 90, "the copy of the NTFS boot sector stands in sector " + total
                    + ", the last of its volume; " + trailer + " bytes follow"));
        }
    }
}
