package sectorglass.exfat;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.verify.Checks;

/** All rules of an exFAT volume, in the order in which one follows from another. */
final class ExfatCheck {

    private final ExfatVolume volume;
    private final VolumeSite site;
    private final Found found;
    private final Checks out;
    private final Progress progress;

    ExfatCheck(ExfatVolume volume, Checks out, Progress progress) {
        this.volume = volume;
        this.site = volume.site();
        this.found = volume.found();
        this.out = out;
        this.progress = progress;
    }

    void run(Level level) {
        BootCheck boot = new BootCheck(site, found.main(), out);
        boot.run();
        Geometry geometry = found.geometry();
        if (geometry == null) {
            return;
        }
        new RegionCheck(BootRegion.of(site, BootRegion.MAIN, geometry.sectorBytes()),
                BootRegion.of(site, BootRegion.BACKUP, geometry.sectorBytes()), boot.lead(), out).run();
        RootCheck root = new RootCheck(site, geometry, volume.root(), new Fat(site, geometry), boot.size(), out);
        root.run();
        if (level == Level.FULL) {
            new FullCheck(volume, out, progress).run(root, boot.size());
        }
    }
}
