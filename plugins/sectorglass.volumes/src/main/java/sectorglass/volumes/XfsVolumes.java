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
import sectorglass.image.Window;

/**
 * XFS: superblock in the first sector of every allocation group. Source: libblkid superblock prober for XFS (util-linux) and what
 * mkfs.xfs 6.1 writes.
 */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class XfsVolumes implements VolumeProvider {
    static final String MAGIC = "XFSB";

    @Override
    public List<String> kinds() {
        return List.of("xfs");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("XFS superblock", 0, MAGIC.getBytes(StandardCharsets.US_ASCII), -1));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        if (!site.has(0, 512)) {
            return Optional.empty();
        }
        Window first = site.window(0, 512);
        if (first.matches(0, MAGIC)) {
            if (!XfsSuperblock.plausible(first)) {
                return Optional.of(new Claim("xfs", 40, site, "XFS magic, but sizes that do not agree", 0L));
            }
            boolean sums = XfsSuperblock.version(first) == 5 && Boolean.TRUE.equals(VolumeFacts.known(() -> XfsSuperblock.sumHolds(site, 0)));
            return Optional.of(new Claim("xfs", sums ? 96 : 88, site,
                    sums ? "XFS superblock whose checksum holds" : "XFS superblock with agreeing sizes", 0L));
        }
        Long copy = VolumeFacts.product(first.u32be(84), first.u32be(4));
        if (copy != null && copy > 0 && VolumeFacts.power(first.u32be(4), 512, 65536) && site.has(copy, 512)) {
            Window other = site.window(copy, 512);
            if (other.matches(0, MAGIC) && XfsSuperblock.plausible(other) && other.u32be(84) == first.u32be(84)) {
                return Optional.of(new Claim("xfs", 70, site, "superblock of allocation group 1; the first one lost its magic", copy));
            }
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        return XfsVolume.open(claim.site(), claim.detail() instanceof Long at ? at : 0L);
    }
}
