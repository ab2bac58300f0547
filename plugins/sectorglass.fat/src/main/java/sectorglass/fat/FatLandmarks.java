package sectorglass.fat;

import java.nio.charset.StandardCharsets;
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
 * FAT boot sectors as landmarks, and the place on the disk that they name. Source: Microsoft FAT specification 1.03: BS_FilSysType at
 * 54 (FAT12, FAT16) and 82 (FAT32), BPB_BytsPerSec at 11, BPB_HiddSec at 28. The type text is a hint only, as the specification says.
 */
@Component(service = {Landmarks.class, DumpFormClue.class})
@ServiceProvider(value = Landmarks.class, resolution = Resolution.OPTIONAL)
@ServiceProvider(value = DumpFormClue.class, resolution = Resolution.OPTIONAL)
public final class FatLandmarks implements Landmarks, DumpFormClue {
    private static final int LARGEST_SECTOR = 4096;

    @Override
    public List<Landmark> landmarks() {
        return List.of(new Landmark("FAT32 boot sector type", -1, 82, "FAT32   ".getBytes(StandardCharsets.US_ASCII), 30),
                new Landmark("FAT16 boot sector type", -1, 54, "FAT16   ".getBytes(StandardCharsets.US_ASCII), 30),
                new Landmark("FAT12 boot sector type", -1, 54, "FAT12   ".getBytes(StandardCharsets.US_ASCII), 30));
    }

    @Override
    public List<DumpForm.Clue> look(SectorImage stored) {
        Window boot = stored.window(0, 512);
        if (!boot.isRead(0, 512) || !boot.matches(510, 0x55, 0xAA)
                || !boot.matches(82, "FAT32   ") && !boot.matches(54, "FAT16   ") && !boot.matches(54, "FAT12   ")) {
            return List.of();
        }
        long sectors = boot.u32le(28);
        int size = boot.u16le(11);
        if (sectors <= 0 || Integer.bitCount(size) != 1 || size < 512 || size > LARGEST_SECTOR || sectors > Long.MAX_VALUE / 2 / size) {
            return List.of();
        }
        return List.of(new DumpForm.Clue(DumpForm.PLAIN.withFirstImageByte(sectors * size), 30,
                "a FAT boot sector at stored byte 0 says that its volume begins at sector " + sectors + " of its disk"));
    }
}
