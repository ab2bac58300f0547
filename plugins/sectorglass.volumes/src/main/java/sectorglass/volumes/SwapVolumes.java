package sectorglass.volumes;

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
import sectorglass.disk.VolumeProvider;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * Linux swap, old and new version, and hibernation images in its place. The magic stands in the last 10 bytes of the first page.
 * Source: libblkid superblock prober for swap (util-linux).
 */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class SwapVolumes implements VolumeProvider {
    private static final List<Integer> PAGES = List.of(4096, 8192, 16384, 32768, 65536);
    private static final List<String> SLEEPING = List.of("S1SUSPEND", "S2SUSPEND", "ULSUSPEND", "LINHIB0001");

    /**
     * What was found.
     *
     * @param page bytes per page
     * @param version 0 or 1
     * @param bigEndian byte order of version 1
     * @param hibernation whether a hibernation image took the place of the magic
     */
    record Found(int page, int version, boolean bigEndian, boolean hibernation) { }

    @Override
    public List<String> kinds() {
        return List.of("swap");
    }

    @Override
    public List<Signature> signatures() {
        List<Signature> all = new ArrayList<>();
        for (int page : PAGES) {
            all.add(new Signature("swap header", page - 10, "SWAPSPACE2".getBytes(StandardCharsets.US_ASCII), 0));
        }
        return all;
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        for (int page : PAGES) {
            if (!site.has(page - 10, 10)) {
                continue;
            }
            Window mark = site.window(page - 10, 10);
            boolean sleeping = SLEEPING.stream().anyMatch(word -> mark.matches(0, word));
            if (mark.matches(0, "SWAP-SPACE")) {
                return Optional.of(new Claim("swap", 85, site, "magic of swap version 0", new Found(page, 0, false, false)));
            }
            if ((sleeping || mark.matches(0, "SWAPSPACE2")) && site.has(1024, 512)) {
                Window header = site.window(1024, 512);
                boolean big = header.u32be(0) == 1;
                if (big || header.u32le(0) == 1) {
                    return Optional.of(new Claim("swap", 93, site, (sleeping ? "hibernation image in a swap volume" : "swap header")
                            + ", pages of " + page + " bytes", new Found(page, 1, big, sleeping)));
                }
            }
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        return SwapVolume.open(claim.site(), claim.detail() instanceof Found found ? found : new Found(4096, 1, false, false));
    }
}
