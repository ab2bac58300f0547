package sectorglass.fat;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** All rules of a FAT volume, in the order in which one follows from another. */
final class FatCheck {

    private final FatVolume volume;
    private final VolumeSite site;
    private final Found found;
    private final Checks out;
    private final Progress progress;

    FatCheck(FatVolume volume, Checks out, Progress progress) {
        this.volume = volume;
        this.site = volume.site();
        this.found = volume.found();
        this.out = out;
        this.progress = progress;
    }

    void run(Level level) {
        BootCheck boot = new BootCheck(site, found, out);
        boot.run();
        Geometry geometry = found.geometry();
        if (geometry == null) {
            return;
        }
        new HeadCheck(site, found, out).run();
        FatTable table = volume.judgedTable();
        InfoCheck info = null;
        Mark rootCluster = null;
        if (geometry.kind() == FatKind.FAT32) {
            info = new InfoCheck(site, found, boot.lead(), out);
            info.run();
            rootCluster = rootCluster(table, boot.lead());
        }
        label();
        if (level == Level.FULL && !boot.tableLies()) {
            new FullCheck(site, found, table, boot, info, out, progress).run(rootCluster);
        }
    }

    private Mark rootCluster(FatTable table, Mark lead) {
        BootSector layout = found.layout();
        if (layout == null) {
            return null;
        }
        return out.in(layout.at(0, BootSector.SIZE)).check("fat32.root-cluster-legal", layout.at(BootSector.ROOT_CLUSTER, 4), () -> {
            long cluster = layout.rootCluster();
            if (!table.exists(cluster)) {
                return Outcome.failed("cluster " + cluster, "2 to " + table.lastCluster()).because(lead);
            }
            int entry = table.entry((int) cluster);
            if (entry == FatTable.UNREAD) {
                return Outcome.unread(table.sectors(cluster));
            }
            return Outcome.test(entry != 0 && entry != FatKind.FAT32.bad(), "cluster " + cluster + ", which is "
                    + (entry == 0 ? "free" : "bad"), "a used cluster");
        });
    }

    private void label() {
        BootSector layout = found.layout();
        Root root = Root.of(site, found.geometry(), volume.judgedTable());
        if (layout == null || root.directory() == null || layout.window().u8(layout.bootSigAt()) != 0x29) {
            return;
        }
        out.in(layout.at(0, BootSector.SIZE)).check("fat.label-agrees", layout.at(layout.labelAt(), 11), () -> {
            String boot = layout.label();
            if (root.label() == null && !root.complete()) {
                return Outcome.unread(root.directory().missing());
            }
            String stored = boot == null ? "no label" : Text.quoted(boot);
            String wanted = root.label() == null ? "no label" : Text.quoted(root.label());
            return Outcome.test(stored.equals(wanted), stored, wanted);
        });
    }
}
