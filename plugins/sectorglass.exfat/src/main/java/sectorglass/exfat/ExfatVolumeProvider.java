package sectorglass.exfat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Claim;
import sectorglass.disk.Signature;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeProvider;
import sectorglass.disk.VolumeSite;

/** Recognises exFAT. */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class ExfatVolumeProvider implements VolumeProvider {

    @Override
    public List<String> kinds() {
        return List.of("exfat");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("exFAT boot sector", BootSector.NAME, "EXFAT   ".getBytes(StandardCharsets.ISO_8859_1), 0));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        return Recognition.at(site).map(found -> new Claim("exfat", found.confidence(), site, found.reason(), found));
    }

    @Override
    public Volume open(Claim claim) {
        return new ExfatVolume(claim.site(), (Found) claim.detail());
    }
}
