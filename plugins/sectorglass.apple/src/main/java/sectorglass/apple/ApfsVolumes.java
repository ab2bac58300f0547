package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
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

/** APFS containers. Source: Apple File System Reference by way of the raw header of apfsprogs (linux-apfs). */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class ApfsVolumes implements VolumeProvider {
    static final String MAGIC = "NXSB";

    @Override
    public List<String> kinds() {
        return List.of("apfs");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("APFS container superblock", 32, MAGIC.getBytes(StandardCharsets.US_ASCII), -1),
                new Signature("APFS volume superblock", 32, "APSB".getBytes(StandardCharsets.US_ASCII), -1));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        List<Long> places = new ArrayList<>(List.of(0L));
        for (long at = 4096; at <= 4096 * 64; at += 4096) {
            places.add(at);
        }
        boolean firstUnread = !site.has(0, 512);
        for (long at : places) {
            if (!site.has(at, 512)) {
                continue;
            }
            Window w = site.window(at, 512);
            if (w.matches(32, MAGIC) && VolumeFacts.power(w.u32le(0x24), 4096, 65536) && w.u16le(24) == 1) {
                boolean sound = Boolean.TRUE.equals(VolumeFacts.known(() -> ApfsObject.sumHolds(site.window(at, (int) w.u32le(0x24)))));
                int confidence = (sound ? 97 : 65) - (at == 0 ? 0 : 20);
                return Optional.of(new Claim("apfs", confidence, site, "APFS container superblock at byte " + at
                        + (sound ? " whose checksum holds" : ""), at));
            }
            if (at == 0 && !firstUnread && !looksLikeObject(w)) {
                return Optional.empty();
            }
        }
        return Optional.empty();
    }

    /** Whether block 0 still has what an object header or container superblock needs, its magic apart. */
    private static boolean looksLikeObject(Window w) {
        return w.u64le(8) == 1 && w.u32le(24) == 0x80000001L || VolumeFacts.power(w.u32le(0x24), 4096, 65536) && w.u64le(0x28) > 0;
    }

    @Override
    public Volume open(Claim claim) {
        return Apfs.open(claim.site(), claim.detail() instanceof Long at ? at : 0);
    }
}
