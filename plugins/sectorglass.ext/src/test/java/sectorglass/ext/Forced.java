package sectorglass.ext;

import java.util.Optional;

import sectorglass.disk.Claim;
import sectorglass.disk.Level;
import sectorglass.disk.Volume;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;

/** Opens an image as an ext volume even where nothing on it says so. */
final class Forced {

    private Forced() {
    }

    static Volume open(DiskFile image) {
        Optional<Claim> claim = new ExtVolumes().recognise(image.site());
        return new ExtVolumes().open(claim.orElseGet(() -> new Claim("ext2", 1, image.site(), "forced", 1024L)));
    }

    static Judged full(DiskFile image) {
        return at(image, Level.FULL);
    }

    static Judged at(DiskFile image, Level level) {
        return Judged.of(open(image), level);
    }
}
