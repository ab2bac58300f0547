package sectorglass.fat;

import java.util.List;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorSizeClue;

/** The sector size that a FAT boot sector at the start of the image names: a card or stick without a partition map. */
@Component(service = SectorSizeClue.class)
@ServiceProvider(value = SectorSizeClue.class, resolution = Resolution.OPTIONAL)
public final class FatSectorSize implements SectorSizeClue {

    private static final int WEIGHT = 60;

    @Override
    public List<Clue> look(SectorImage image) {
        if (image.sectors() < 1) {
            return List.of();
        }
        return Recognition.at(new VolumeSite(image, image.all(), null))
                .filter(found -> found.source() != Found.Source.GUESS && found.geometry() != null)
                .map(found -> List.of(new Clue(found.geometry().sectorBytes(), found.source() == Found.Source.MAIN ? WEIGHT : WEIGHT / 2,
                        "BPB_BytsPerSec at byte " + (found.layoutByte() + BootSector.BYTES_PER_SECTOR) + " is "
                                + found.geometry().sectorBytes())))
                .orElse(List.of());
    }
}
