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
import sectorglass.image.Window;

/**
 * LVM2 physical volume: a label in one of the first four sectors of 512 bytes. Source: LVM2 text format layout header; libblkid
 * superblock prober for LVM (util-linux).
 */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class LvmVolumes implements VolumeProvider {

    @Override
    public List<String> kinds() {
        return List.of("lvm2");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("LVM2 label", 0, "LABELONE".getBytes(StandardCharsets.US_ASCII), 512));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        for (int sector = 0; sector < 4; sector++) {
            if (site.has(sector * 512L, 512)) {
                Window w = site.window(sector * 512L, 512);
                if (w.matches(0, "LABELONE") && w.matches(24, "LVM2 001")) {
                    boolean sound = w.u64le(8) == sector && LvmVolume.sum(w) == w.u32le(16);
                    return Optional.of(new Claim("lvm2", sound ? 97 : 75, site, "LVM2 label in sector " + sector
                            + (sound ? " whose checksum and place hold" : ""), sector));
                }
            }
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        return LvmVolume.open(claim.site(), claim.detail() instanceof Integer sector ? sector : 1);
    }
}
