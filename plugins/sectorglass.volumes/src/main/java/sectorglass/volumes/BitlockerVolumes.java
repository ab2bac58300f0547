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
 * BitLocker: recognised by its boot record and metadata, never opened. Source: libblkid superblock prober for BitLocker (util-linux);
 * cryptsetup, lib/bitlk.
 */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class BitlockerVolumes implements VolumeProvider {
    static final String MAGIC = "-FVE-FS-";
    /** From memory, and equal to what a made volume holds. */
    static final int[] GUID = {0x3B, 0xD6, 0x67, 0x49, 0x29, 0x2E, 0xD8, 0x4A, 0x83, 0x99, 0xF6, 0xA3, 0x39, 0xE3, 0xD0, 0x01};

    @Override
    public List<String> kinds() {
        return List.of("bitlocker");
    }

    @Override
    public List<Signature> signatures() {
        byte[] magic = MAGIC.getBytes(StandardCharsets.US_ASCII);
        return List.of(new Signature("BitLocker boot record", 3, magic, 0), new Signature("BitLocker metadata", 0, magic, -1));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        if (!site.has(0, 512)) {
            return Optional.empty();
        }
        Window w = site.window(0, 512);
        if (w.matches(3, MAGIC) && w.matches(0, 0xEB, 0x58, 0x90)) {
            boolean known = w.matches(160, GUID);
            return Optional.of(new Claim("bitlocker", known ? 97 : 85, site, "BitLocker boot record", Bitlocker.offsets(w, 176)));
        }
        if (w.matches(3, MAGIC) && w.matches(0, 0xEB, 0x52, 0x90)) {
            return Optional.of(new Claim("bitlocker", 90, site, "BitLocker boot record of its first version", Bitlocker.vista(w)));
        }
        if (w.matches(3, "MSWIN4.1") && w.matches(424, GUID)) {
            return Optional.of(new Claim("bitlocker", 97, site, "BitLocker boot record of a removable volume", Bitlocker.offsets(w, 440)));
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        return Bitlocker.open(claim.site(), (Bitlocker.Offsets) claim.detail());
    }
}
