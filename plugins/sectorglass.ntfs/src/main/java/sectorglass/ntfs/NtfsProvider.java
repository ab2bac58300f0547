package sectorglass.ntfs;

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

/** Recognises NTFS by its boot sector, or by the copy in the last sector of the partition. */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class NtfsProvider implements VolumeProvider {

    /** Made by the service loader. */
    public NtfsProvider() {
        // nothing to prepare
    }

    @Override
    public List<String> kinds() {
        return List.of("ntfs");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("NTFS boot sector", BootSector.OEM_ID, ascii(BootSector.OEM), 0),
                new Signature("NTFS file record", 0, ascii("FILE"), -1),
                new Signature("NTFS index block", 0, ascii("INDX"), -1));
    }

    private static byte[] ascii(String text) {
        return text.getBytes(java.nio.charset.StandardCharsets.US_ASCII);
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        return new Recognition(site).claim();
    }

    @Override
    public Volume open(Claim claim) {
        return new NtfsVolume(claim.site(), (BootFound) claim.detail());
    }
}
