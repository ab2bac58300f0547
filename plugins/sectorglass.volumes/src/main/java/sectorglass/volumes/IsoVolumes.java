package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;

import sectorglass.disk.Claim;
import sectorglass.disk.Signature;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeProvider;
import sectorglass.disk.VolumeSite;

/** ISO 9660 with Joliet: descriptors from byte 32768. Source: ECMA-119; libblkid superblock prober for ISO 9660 (util-linux). */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class IsoVolumes implements VolumeProvider {

    @Override
    public List<String> kinds() {
        return List.of("iso9660");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("ISO 9660 descriptor", 1, "CD001".getBytes(StandardCharsets.US_ASCII), 32768));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        for (IsoDescriptor found : IsoDescriptor.list(site)) {
            if (found.type() == 1) {
                Boolean agree = VolumeFacts.known(() -> IsoDescriptor.bothEndianAgree(site.window(found.at(), 2048)));
                return Optional.of(new Claim("iso9660", Boolean.TRUE.equals(agree) ? 90 : 70, site, "ISO 9660 primary descriptor", null));
            }
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        return IsoVolume.open(claim.site());
    }
}
