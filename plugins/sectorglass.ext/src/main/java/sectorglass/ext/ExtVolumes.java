package sectorglass.ext;

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
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** ext2, ext3, ext4, also by a backup superblock. Source: Linux kernel documentation, filesystems/ext4; libblkid (util-linux). */
@Component(service = VolumeProvider.class)
@ServiceProvider(value = VolumeProvider.class, resolution = Resolution.OPTIONAL)
public final class ExtVolumes implements VolumeProvider {

    @Override
    public List<String> kinds() {
        return List.of("ext2", "ext3", "ext4");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("ext superblock", 0x38, new byte[] {0x53, (byte) 0xEF}, 1024));
    }

    @Override
    public Optional<Claim> recognise(VolumeSite site) {
        Optional<Claim> primary = claim(site, 1024, 0);
        if (primary.isPresent()) {
            return primary;
        }
        boolean suspicious = !site.has(1024, 512);
        List<Long> places = new ArrayList<>();
        if (!suspicious) {
            Window w = site.window(1024, Superblock.LENGTH);
            if (w.u16le(0x38) == Superblock.MAGIC) {
                suspicious = true;
            }
            Superblock damaged = safely(w);
            if (damaged != null && damaged.problem() == null) {
                places.add((damaged.firstDataBlock() + damaged.blocksPerGroup()) * damaged.blockSize());
                places.add((damaged.firstDataBlock() + 3 * damaged.blocksPerGroup()) * damaged.blockSize());
            }
        }
        if (suspicious || site.window(1024, 512).filled(0, 512, 0)) {
            for (int log = 18; log <= 32; log++) {
                places.add(1L << log);
                places.add((1L << log) + 1024);
            }
        }
        for (long place : places) {
            Optional<Claim> backup = claim(site, place, -1);
            if (backup.isPresent()) {
                return backup;
            }
        }
        return Optional.empty();
    }

    /** @param group 0 for the primary; -1 for any backup, which must then lie where its geometry puts its group */
    private static Optional<Claim> claim(VolumeSite site, long at, int group) {
        if (!site.has(at, 512)) {
            return Optional.empty();
        }
        Window w = site.window(at, Superblock.LENGTH);
        Superblock sb = w.u16le(0x38) == Superblock.MAGIC ? safely(w) : null;
        if (sb == null || sb.kind() == null) {
            return Optional.empty();
        }
        boolean sound = sb.sums() && w.isRead(0, 1024) && Superblock.sum(w) == w.u32le(0x3FC);
        if (group == 0) {
            int confidence = sound ? 96 : sb.problem() == null ? 90 : sb.logBlock() <= 6 && sb.blocksPerGroup() > 0 ? 55 : 0;
            return confidence == 0 ? Optional.empty() : Optional.of(new Claim(sb.kind(), confidence, site, sound
                    ? "ext superblock whose checksum holds" : "ext superblock", 1024L));
        }
        int said = w.u16le(0x5A);
        if (sb.problem() != null || said == 0 || (sb.firstDataBlock() + said * sb.blocksPerGroup()) * sb.blockSize() != at) {
            return Optional.empty();
        }
        return Optional.of(new Claim(sb.kind(), sound ? 80 : 72, site, "backup superblock of group " + said + " at byte " + at, at));
    }

    private static Superblock safely(Window w) {
        try {
            return Superblock.read(w);
        } catch (UnreadException e) {
            return null;
        }
    }

    @Override
    public Volume open(Claim claim) {
        return ExtVolume.open(claim.site(), claim.kind(), claim.detail() instanceof Long at ? at : 1024);
    }
}
