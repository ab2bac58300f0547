package sectorglass.exfat;

import java.util.List;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorSizeClue;

/** The sector size that an exFAT boot region at the start of the image names: a card or stick without a partition map. */
@Component(service = SectorSizeClue.class)
@ServiceProvider(value = SectorSizeClue.class, resolution = Resolution.OPTIONAL)
public final class ExfatSectorSize implements SectorSizeClue {

    @Override
    public List<Clue> look(SectorImage image) {
        if (image.sectors() < 1) {
            return List.of();
        }
        return Recognition.at(new VolumeSite(image, image.all(), null)).filter(found -> found.geometry() != null)
                .map(found -> List.of(new Clue(found.geometry().sectorBytes(), Math.min(90, found.confidence()),
                        "BytesPerSectorShift of the exFAT boot sector says " + found.geometry().sectorBytes() + " (" + found.reason() + ")")))
                .orElse(List.of());
    }
}
