package sectorglass.volumes;

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

/**
 * Member of a Linux software RAID set (md), superblock versions 0.90 to 1.2. Source: libblkid superblock prober for linux_raid
 * (util-linux).
 */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class MdVolumes implements VolumeProvider {

    @Override
    public List<String> kinds() {
        return List.of("md");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("md superblock", 0, new byte[] {(byte) 0xFC, 0x4E, 0x2B, (byte) 0xA9}, -1));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        for (MdSuperblock candidate : MdSuperblock.candidates(site)) {
            if (candidate.present()) {
                Boolean sum = VolumeFacts.known(candidate::sumHolds);
                boolean sound = Boolean.TRUE.equals(sum) && candidate.inPlace();
                if (sound || candidate.plausible()) {
                    return Optional.of(new Claim("md", sound ? 98 : 70, site, "md superblock " + candidate.version() + " at byte "
                            + candidate.at() + (sound ? " whose checksum holds" : ""), candidate));
                }
            }
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        return MdVolume.open(claim.site(), (MdSuperblock) claim.detail());
    }
}
