package sectorglass.fat;

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

/** Recognises FAT12, FAT16 and FAT32. */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class FatVolumeProvider implements VolumeProvider {

    private static final byte[] DOT = {'.', ' ', ' ', ' ', ' ', ' ', ' ', ' ', ' ', ' ', ' ', 0x10};
    private static final byte[] SIGNED = {0x55, (byte) 0xAA};
    private static final byte[] INFO = {'R', 'R', 'a', 'A'};

    @Override
    public List<String> kinds() {
        return List.of("fat12", "fat16", "fat32");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("FAT boot sector", BootSector.SIGNATURE, SIGNED, 0),
                new Signature("FAT32 information sector", 0, INFO, -1), new Signature("FAT directory", 0, DOT, -1));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        return Recognition.at(site).map(found -> {
            FatKind kind = found.geometry() != null ? found.geometry().kind() : found.main().form32() ? FatKind.FAT32 : FatKind.FAT16;
            return new Claim(kind.word(), found.confidence(), site, found.reason(), found);
        });
    }

    @Override
    public Volume open(Claim claim) {
        return new FatVolume(claim.site(), (Found) claim.detail(), claim.kind());
    }
}
