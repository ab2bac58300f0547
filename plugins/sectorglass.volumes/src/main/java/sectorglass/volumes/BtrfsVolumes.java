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

/** Btrfs: superblock at 64 KiB, copies at 64 MiB and 256 GiB. Source: libblkid superblock prober for Btrfs (util-linux). */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class BtrfsVolumes implements VolumeProvider {
    /** Bytes of the superblock and its copies. */
    static final List<Long> PLACES = List.of(0x10000L, 0x4000000L, 0x4000000000L);
    static final String MAGIC = "_BHRfS_M";

    @Override
    public List<String> kinds() {
        return List.of("btrfs");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("Btrfs superblock", 0x40, MAGIC.getBytes(StandardCharsets.US_ASCII), 0x10000));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        Claim best = null;
        for (long at : PLACES) {
            if (site.has(at, 512) && site.window(at, 512).matches(0x40, MAGIC) && site.window(at, 512).u64le(0x30) == at) {
                boolean holds = Boolean.TRUE.equals(VolumeFacts.known(() -> BtrfsSuperblock.sumHolds(site.window(at, 4096))));
                int confidence = (holds ? 96 : 82) - (at == 0x10000 ? 0 : 10);
                if (best == null || best.confidence() < confidence) {
                    best = new Claim("btrfs", confidence, site, "Btrfs superblock at byte " + at
                            + (holds ? " whose checksum holds" : ""), at);
                }
            }
        }
        return Optional.ofNullable(best);
    }

    @Override
    public Volume open(Claim claim) {
        return BtrfsSuperblock.open(claim.site(), claim.detail() instanceof Long at ? at : PLACES.get(0));
    }
}
