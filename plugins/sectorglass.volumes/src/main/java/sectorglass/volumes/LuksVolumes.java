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
import sectorglass.image.Window;

/**
 * LUKS versions 1 and 2: recognised and checked, never opened. Source: libblkid superblock prober for LUKS (util-linux) and what
 * cryptsetup 2.6.1 writes.
 */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class LuksVolumes implements VolumeProvider {
    static final int[] MAGIC = {0x4C, 0x55, 0x4B, 0x53, 0xBA, 0xBE};
    static final int[] SECOND = {0x53, 0x4B, 0x55, 0x4C, 0xBA, 0xBE};
    /** Places of the second header of version 2: the possible header sizes. */
    static final List<Long> SECONDS = List.of(0x4000L, 0x8000L, 0x10000L, 0x20000L, 0x40000L, 0x80000L, 0x100000L, 0x200000L, 0x400000L);

    @Override
    public List<String> kinds() {
        return List.of("luks1", "luks2");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("LUKS header", 0, new byte[] {0x4C, 0x55, 0x4B, 0x53, (byte) 0xBA, (byte) 0xBE}, 0),
                new Signature("LUKS2 second header", 0, new byte[] {0x53, 0x4B, 0x55, 0x4C, (byte) 0xBA, (byte) 0xBE}, -1));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        if (site.has(0, 512) && site.window(0, 512).matches(0, MAGIC)) {
            Window w = site.window(0, 512);
            if (w.u16be(6) == 1) {
                return Optional.of(new Claim("luks1", 92, site, "LUKS header version 1", 0L));
            }
            if (w.u16be(6) == 2) {
                boolean sound = Boolean.TRUE.equals(VolumeFacts.known(() -> Luks2.sumHolds(site, 0)));
                return Optional.of(new Claim("luks2", sound ? 97 : 90, site, "LUKS header version 2"
                        + (sound ? " whose checksum holds" : ""), 0L));
            }
        }
        for (long at : SECONDS) {
            if (site.has(at, 512)) {
                Window w = site.window(at, 512);
                if (w.matches(0, SECOND) && w.u16be(6) == 2 && w.u64be(8) == at && w.u64be(256) == at) {
                    return Optional.of(new Claim("luks2", 75, site, "second LUKS2 header at byte " + at, at));
                }
            }
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        long at = claim.detail() instanceof Long place ? place : 0;
        return claim.kind().equals("luks1") ? Luks1.open(claim.site()) : Luks2.open(claim.site(), at);
    }
}
