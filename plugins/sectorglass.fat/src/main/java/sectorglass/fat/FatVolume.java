package sectorglass.fat;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Level;
import sectorglass.disk.Role;
import sectorglass.disk.Structure;
import sectorglass.disk.Twins;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.disk.Witness;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;

/** A FAT volume. Its root directory is read when it is first asked for something that stands there. */
final class FatVolume implements Volume {

    private final VolumeSite site;
    private final Found found;
    private final String kind;
    private final Object[] services;
    private Root root;

    FatVolume(VolumeSite site, Found found, String kind) {
        this.site = site;
        this.found = found;
        this.kind = kind;
        if (found.geometry() == null) {
            services = new Object[] {new FatRepairs(this), this};
        } else {
            FatFiles files = new FatFiles(this);
            FatAllocation allocation = new FatAllocation(this, files);
            services = new Object[] {files, allocation, new FatReadOrder(this, files, allocation),
                new FatRepairs(this), new FatWay(this), new FatCopy(this), (Twins) this::twins, this};
        }
    }

    @Override
    public <T> Optional<T> capability(Class<T> wanted) {
        for (Object service : services) {
            if (wanted.isInstance(service)) {
                return Optional.of(wanted.cast(service));
            }
        }
        return Optional.empty();
    }

    /** The FAT copies, each with the first. */
    private List<Twins.Pair> twins() {
        Geometry geometry = found.geometry();
        List<Twins.Pair> pairs = new ArrayList<>();
        for (int copy = 1; copy < Math.min(geometry.fats(), 8); copy++) {
            pairs.add(new Twins.Pair("FAT 1 \u2013 FAT " + (copy + 1), new ByteRange(site.firstByte() + geometry.fatByte(0), geometry.fatBytes()),
                    new ByteRange(site.firstByte() + geometry.fatByte(copy), geometry.fatBytes())));
        }
        return List.copyOf(pairs);
    }

    @Override
    public VolumeSite site() {
        return site;
    }

    /** How it was recognised. */
    Found found() {
        return found;
    }

    /** A reader of its FAT; each caller uses its own. */
    FatTable table() {
        return new FatTable(site, found.geometry(), FatTable.trusted(site, found.geometry(), found.layout()));
    }

    /** The FAT that verdicts are about. */
    FatTable judgedTable() {
        return FatTable.judged(site, found.geometry(), found.layout());
    }

    /** Its root directory. */
    synchronized Root root() {
        if (root == null) {
            root = found.geometry() == null ? new Root(null, null, -1, List.of(), null, false)
                    : Root.of(site, found.geometry(), table());
        }
        return root;
    }

    @Override
    public VolumeInfo info() {
        Geometry geometry = found.geometry();
        BootSector layout = found.layout() != null && found.layout().window().isRead(0, BootSector.SIZE) ? found.layout() : null;
        Instant latest = root().latest() == null ? null : root().latest().toInstant(ZoneOffset.UTC);
        int size = site.image().sectorSize();
        SectorRange range = geometry == null ? site.range()
                : new SectorRange(site.range().first(), Math.max(1, (geometry.bytes() + size - 1) / size));
        return new VolumeInfo(kind, range, root().label(), layout == null ? null : layout.label(),
                layout == null ? null : layout.serial(), null, geometry == null ? null : (long) geometry.clusterBytes(),
                geometry == null ? null : geometry.bytes(), used(), latest, remarks());
    }

    /** FAT12 and FAT16: counted, the table is small. FAT32: as FSInfo says. */
    private Long used() {
        Geometry geometry = found.geometry();
        if (geometry == null) {
            return null;
        }
        if (geometry.kind() != FatKind.FAT32) {
            FatTable table = table();
            long used = 0;
            for (int cluster = 2; cluster <= table.lastCluster(); cluster++) {
                int entry = table.entry(cluster);
                if (entry == FatTable.UNREAD) {
                    return null;
                }
                used += entry != 0 && entry != geometry.kind().bad() ? 1 : 0;
            }
            return used * geometry.clusterBytes();
        }
        Window info = InfoCheck.info(site, found);
        if (info == null || !info.isRead(0, BootSector.SIZE) || !info.matches(InfoCheck.STRUCTURE, "rrAa")) {
            return null;
        }
        long free = info.u32le(InfoCheck.FREE);
        return free > geometry.clusters() ? null : (geometry.clusters() - free) * geometry.clusterBytes();
    }

    private List<String> remarks() {
        List<String> remarks = new ArrayList<>();
        switch (found.source()) {
            case BACKUP -> remarks.add("layout taken from the backup boot sector");
            case GUESS -> remarks.add("layout guessed from the FATs and the first directory: an assumption");
            default -> {
                if (found.geometry() == null) {
                    remarks.add("the boot sector is damaged and no layout could be found");
                }
            }
        }
        if (found.geometry() != null && dirty()) {
            remarks.add("not closed cleanly");
        }
        return List.copyOf(remarks);
    }

    /** The state byte of the boot sector, and the clean bit of FAT entry 1. */
    private boolean dirty() {
        Geometry geometry = found.geometry();
        BootSector main = found.main();
        boolean state = found.source() == Found.Source.MAIN && (main.window().u8(main.stateAt()) & 1) != 0;
        if (geometry.kind() == FatKind.FAT12) {
            return state;
        }
        int entry = table().entry(1);
        return state || entry != FatTable.UNREAD && (entry & (geometry.kind() == FatKind.FAT16 ? 0x8000 : 0x08000000)) == 0;
    }

    @Override
    public List<Structure> structures() {
        return new FatStructures(site, found, root(), found.geometry() == null ? null : table(), null).listed();
    }

    @Override
    public Optional<Structure> structureAt(long imageByte) {
        return new FatStructures(site, found, root(), found.geometry() == null ? null : table(), capability(FatFiles.class).orElse(null))
                .at(imageByte);
    }

    @Override
    public OptionalLong address(String pointer, long target) {
        Geometry geometry = found.geometry();
        if (pointer.equals("cluster")) {
            return geometry != null && geometry.exists(target) ? OptionalLong.of(site.firstByte() + geometry.clusterByte(target))
                    : OptionalLong.empty();
        }
        if (pointer.equals("sector") && geometry != null) {
            return target >= 0 && target < geometry.totalSectors()
                    ? OptionalLong.of(site.firstByte() + target * geometry.sectorBytes()) : OptionalLong.empty();
        }
        return Volume.super.address(pointer, target);
    }

    /** BPB_HiddSec, where it is set; formatters leave 0 in files, and tools disagree about logical partitions. */
    @Override
    public List<Witness> witnesses() {
        BootSector main = found.main();
        if (found.source() != Found.Source.MAIN || found.geometry() == null || main.hidden() == 0) {
            return List.of();
        }
        return List.of(new Witness(site.firstByte(), main.hidden() * found.geometry().sectorBytes(), "FAT boot sector"));
    }

    @Override
    public List<Role> roles() {
        return root().roles();
    }

    @Override
    public void check(Level level, Checks out) {
        check(level, out, Progress.NONE);
    }

    @Override
    public void check(Level level, Checks out, Progress progress) {
        new FatCheck(this, out, progress).run(level);
    }
}
