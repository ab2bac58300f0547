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
import sectorglass.disk.VolumeProvider;
import sectorglass.disk.VolumeSite;

/** UDF: recognition sequence from byte 32768 and anchors. Source: ECMA-167; libblkid superblock prober for UDF (util-linux). */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class UdfVolumes implements VolumeProvider {

    @Override
    public List<String> kinds() {
        return List.of("udf");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("UDF recognition sequence", 1, "NSR0".getBytes(StandardCharsets.US_ASCII), -1));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        String sequence = UdfAnchor.recognitionSequence(site);
        Optional<UdfAnchor> anchor = UdfAnchor.find(site);
        if (anchor.isPresent()) {
            return Optional.of(new Claim("udf", sequence != null ? 94 : 72, site, "UDF anchor at sector " + anchor.get().sector()
                    + " of " + anchor.get().sectorSize() + " bytes" + (sequence != null ? ", " + sequence : ""), anchor.get()));
        }
        return sequence == null ? Optional.empty()
                : Optional.of(new Claim("udf", 60, site, sequence + ", but no anchor was found", null));
    }

    @Override
    public Volume open(Claim claim) {
        return UdfVolume.open(claim.site(), (UdfAnchor) claim.detail());
    }
}
