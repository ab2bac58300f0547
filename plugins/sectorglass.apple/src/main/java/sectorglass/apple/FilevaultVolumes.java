package sectorglass.apple;

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
import sectorglass.image.Window;

/**
 * Core Storage physical volume, the container of FileVault 2: recognised, never opened. Source: libblkid superblock prober
 * for cs_fvault2 (util-linux), from memory, and equal to what a made volume holds.
 */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class FilevaultVolumes implements VolumeProvider {

    @Override
    public List<String> kinds() {
        return List.of("filevault");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("Core Storage volume header", 88, "CS".getBytes(StandardCharsets.US_ASCII), 0));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        if (!site.has(0, 512)) {
            return Optional.empty();
        }
        Window w = site.window(0, 512);
        if (!w.matches(88, "CS") || w.u16le(8) != 1 || w.u16le(10) != 0x10 || w.u32le(90) != 1 || w.u32le(168) != 16
                || w.u32le(172) != 2) {
            return Optional.empty();
        }
        boolean sound = Filevault.sum(w) == w.u32le(0);
        return Optional.of(new Claim("filevault", sound ? 97 : 75, site, "Core Storage volume header"
                + (sound ? " whose checksum holds" : ""), null));
    }

    @Override
    public Volume open(Claim claim) {
        return Filevault.open(claim.site());
    }
}
