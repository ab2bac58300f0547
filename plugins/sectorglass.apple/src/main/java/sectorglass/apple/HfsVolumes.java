package sectorglass.apple;

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
 * HFS, HFS+ and HFSX, also HFS+ inside an HFS wrapper. Source: Apple TN1150 by way of the header hfs_format.h (xnu); libblkid
 * superblock prober for HFS (util-linux).
 */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class HfsVolumes implements VolumeProvider {

    @Override
    public List<String> kinds() {
        return List.of("hfs", "hfsplus");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("HFS+ volume header", 0, new byte[] {'H', '+', 0, 4}, 1024),
                new Signature("HFSX volume header", 0, new byte[] {'H', 'X', 0, 5}, 1024),
                new Signature("HFS master directory block", 0, new byte[] {'B', 'D'}, 1024));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        if (!site.has(1024, 512)) {
            return alternate(site);
        }
        Window w = site.window(1024, 512);
        if (w.matches(0, "BD")) {
            if (!Hfs.plausible(w)) {
                return Optional.empty();
            }
            if (w.matches(124, "H+") || w.matches(124, "HX")) {
                HfsPlus.Place inside = Hfs.embedded(site, w);
                if (inside != null && site.has(inside.start() + 1024, 512)
                        && HfsPlus.plausible(site.window(inside.start() + 1024, 512))) {
                    return Optional.of(new Claim("hfsplus", 90, site, "HFS+ volume in an HFS wrapper", inside));
                }
            }
            return Optional.of(new Claim("hfs", 85, site, "HFS master directory block", null));
        }
        if (HfsPlus.signature(w)) {
            HfsPlus.Place place = new HfsPlus.Place(0, site.bytes(), 1024);
            return Optional.of(HfsPlus.plausible(w) ? new Claim("hfsplus", 90, site, "HFS+ volume header", place)
                    : new Claim("hfsplus", 45, site, "HFS+ signature, but sizes that do not agree", place));
        }
        return alternate(site);
    }

    private static Optional<Claim> alternate(VolumeSite site) {
        long at = site.bytes() - 1024;
        if (at > 1024 && site.has(at, 512)) {
            Window w = site.window(at, 512);
            if (HfsPlus.signature(w) && HfsPlus.plausible(w)) {
                return Optional.of(new Claim("hfsplus", 60, site, "alternate HFS+ volume header at the end",
                        new HfsPlus.Place(0, site.bytes(), at)));
            }
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        return claim.detail() instanceof HfsPlus.Place place ? HfsPlus.open(claim.site(), place) : Hfs.open(claim.site());
    }
}
