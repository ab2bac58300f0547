package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;

import sectorglass.disk.Claim;
import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Signature;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeProvider;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** F2FS: superblocks at bytes 1024 and 5120. Source: libblkid superblock prober for F2FS (util-linux). */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class F2fsVolumes implements VolumeProvider {
    static final List<Long> PLACES = List.of(1024L, 5120L);
    static final long MAGIC = 0xF2F52010L;

    @Override
    public List<String> kinds() {
        return List.of("f2fs");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("F2FS superblock", 0, new byte[] {0x10, 0x20, (byte) 0xF5, (byte) 0xF2}, 1024));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        for (long at : PLACES) {
            if (site.has(at, 512)) {
                Window w = site.window(at, 512);
                if (w.u32le(0) == MAGIC && w.u32le(16) >= 9 && w.u32le(16) <= 16 && w.u16le(4) == 1) {
                    return Optional.of(new Claim("f2fs", at == 1024 ? 92 : 80, site, "F2FS superblock at byte " + at, at));
                }
            }
        }
        return Optional.empty();
    }

    @Override
    public Volume open(Claim claim) {
        long at = claim.detail() instanceof Long place ? place : PLACES.get(0);
        Window w = claim.site().window(at, 3072);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            facts.uuid = VolumeFacts.uuid(w, 0x6C);
            long block = 1L << Math.min(16, w.u32le(16));
            facts.clusterBytes = block;
            facts.bytes = VolumeFacts.product(w.u64le(0x24), block);
            return facts.label = VolumeFacts.text(w.sub(0x7C, 1024), StandardCharsets.UTF_16LE);
        });
        if (at != 1024) {
            facts.remarks.add("read from the second superblock");
        }
        List<Structure> structures = PLACES.stream().map(place -> new VolumeHeader(claim.site(), place, 3072)).filter(VolumeHeader::inside)
                .map(header -> header.structure(header.at() == 1024 ? "superblock" : "second superblock", "f2fs_superblock")).toList();
        return new HeaderVolume(facts.info("f2fs", claim.site()), claim.site(), structures, List.of(),
                (level, out) -> F2fsChecks.check(claim.site(), out));
    }
}
