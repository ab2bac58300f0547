package sectorglass.exfat;

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
 * The exFAT boot sector as a landmark, and the place on the disk that it names. Source: Microsoft exFAT file system specification, section
 * 3.1: FileSystemName at 3, PartitionOffset at 64, BytesPerSectorShift at 108.
 */
@Component(service = {Landmarks.class, DumpFormClue.class})
@ServiceProvider(value = Landmarks.class, resolution = Resolution.OPTIONAL)
@ServiceProvider(value = DumpFormClue.class, resolution = Resolution.OPTIONAL)
public final class ExfatLandmarks implements Landmarks, DumpFormClue {
    private static final int LARGEST_SECTOR = 4096;

    @Override
    public List<Landmark> landmarks() {
        return List.of(new Landmark("exFAT boot sector name", -1, 3, "EXFAT   ".getBytes(StandardCharsets.US_ASCII), 40));
    }

    @Override
    public List<DumpForm.Clue> look(SectorImage stored) {
        Window boot = stored.window(0, 512);
        if (!boot.isRead(0, 512) || !boot.matches(3, "EXFAT   ") || !boot.matches(510, 0x55, 0xAA)) {
            return List.of();
        }
        long sectors = boot.u64le(64);
        int size = 1 << Math.min(30, boot.u8(108));
        if (sectors <= 0 || Integer.bitCount(size) != 1 || size < 512 || size > LARGEST_SECTOR || sectors > Long.MAX_VALUE / 2 / size) {
            return List.of();
        }
        return List.of(new DumpForm.Clue(DumpForm.PLAIN.withFirstImageByte(sectors * size), 30,
                "an exFAT boot sector at stored byte 0 says that its volume begins at sector " + sectors + " of its disk"));
    }
}
