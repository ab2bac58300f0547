package sectorglass.partition;

import java.nio.charset.StandardCharsets;
import java.util.List;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.image.Landmarks;

/**
 * Signatures of maps at their places. Sources: UEFI 2.10, section 5.2.1 (55 AA at 510) and section 5.3.2 ("EFI PART" in LBA 1); Apple
 * partition map entry signature "PM" in block 1 (Inside Macintosh: Devices, from memory).
 */
@Component(service = Landmarks.class)
@ServiceProvider(value = Landmarks.class, resolution = Resolution.OPTIONAL)
public final class MapLandmarks implements Landmarks {

    @Override
    public List<Landmark> landmarks() {
        return List.of(new Landmark("boot sector signature 55 AA", 0, 510, new byte[] {0x55, (byte) 0xAA}, 10),
                new Landmark("GPT header signature", 1, 0, "EFI PART".getBytes(StandardCharsets.US_ASCII), 50),
                new Landmark("Apple partition map entry signature", 1, 0, new byte[] {'P', 'M', 0, 0}, 30));
    }
}
