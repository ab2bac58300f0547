package sectorglass.exfat;

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
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;

/** An exFAT volume. Its root directory is read when it is first asked for something that stands there. */
final class ExfatVolume implements Volume {

    /** A bitmap of up to this many bytes is counted for the used bytes. */
    private static final long COUNTED = 4 << 20;

    private final VolumeSite site;
    private final Found found;
    private final Object[] services;
    private Root root;

    ExfatVolume(VolumeSite site, Found found) {
        this.site = site;
        this.found = found;
        if (found.geometry() == null) {
            services = new Object[] {new ExfatRepairs(site, found), this};
        } else {
            ExfatFiles files = new ExfatFiles(this);
            ExfatAllocation allocation = new ExfatAllocation(this, files);
            services = new Object[] {files, allocation, new SetSelfCheck(), new ExfatReadOrder(this, files, allocation),
                new ExfatRepairs(site, found), new ExfatWay(this), new ExfatCopy(this), (Twins) this::twins, this};
        }
    }

    @Override
    public <T> Optional<T> capability(Class<T> kind) {
        for (Object service : services) {
            if (kind.isInstance(service)) {
                return Optional.of(kind.cast(service));
            }
        }
        return Optional.empty();
    }

    /** The FAT copies, each with the first. */
    private List<Twins.Pair> twins() {
        Geometry geometry = found.geometry();
        List<Twins.Pair> pairs = new ArrayList<>();
        for (int copy = 1; copy < Math.min(geometry.fats(), 8); copy++) {
            pairs.add(new Twins.Pair("FAT 1 \u2013 FAT " + (copy + 1), new ByteRange(site.firstByte() + (geometry.fatOffset() + 0L * geometry.fatLength()) * geometry.sectorBytes(), geometry.fatLength() * geometry.sectorBytes()),
                    new ByteRange(site.firstByte() + (geometry.fatOffset() + (long) copy * geometry.fatLength()) * geometry.sectorBytes(), geometry.fatLength() * geometry.sectorBytes())));
        }
        return List.copyOf(pairs);
    }

    @Override
    public VolumeSite site() {
        return site;
    }

    Found found() {
        return found;
    }

    /** The root directory, or null where no layout is known. */
    synchronized Root root() {
        if (root == null && found.geometry() != null) {
            root = Root.of(site, found.geometry(), new Fat(site, found.geometry()));
        }
        return root;
    }

    /** The allocation bitmap of the active FAT, or null where none can be located. */
    Bitmap bitmap() {
        Root here = root();
        int slot = here == null || here.directory() == null ? -1 : here.bitmap(found.geometry().activeFat());
        if (slot < 0) {
            return null;
        }
        Geometry geometry = found.geometry();
        long needed = (geometry.clusters() + 7) / 8;
        Chain chain = Chain.follow(new Fat(site, geometry), here.directory().u32(slot, 20), geometry.clustersOf(needed));
        if (chain.clusters() < geometry.clustersOf(needed) && geometry.exists(here.directory().u32(slot, 20))
                && chain.end() == Chain.End.UNREAD) {
            // formatters place the bitmap in one run; where the FAT was not read, that is the assumption
            chain = Chain.contiguous(geometry, here.directory().u32(slot, 20), geometry.clustersOf(needed));
        }
        long length = here.directory().u64(slot, 24);
        return chain.clusters() == 0 ? null
                : new Bitmap(Stretch.of(site, geometry, chain, length < 0 ? needed : Math.min(length, needed)), geometry.clusters());
    }

    /** The clusters of bitmaps and up-case tables, as the root directory names them. */
    List<Chain> tables() {
        List<Chain> all = new ArrayList<>();
        Root here = root();
        if (here == null || here.directory() == null) {
            return all;
        }
        List<Integer> slots = new ArrayList<>(here.bitmaps());
        slots.addAll(here.upcases());
        Fat fat = new Fat(site, found.geometry());
        for (int slot : slots) {
            long first = here.directory().u32(slot, 20);
            long bytes = here.directory().u64(slot, 24);
            if (fat.exists(first) && bytes > 0) {
                all.add(Chain.follow(fat, first, found.geometry().clustersOf(bytes)));
            }
        }
        return all;
    }

    /** Sectors of the FAT that keep the clusters of the bitmap from being known; it is then taken to lie in one run. */
    SectorRanges bitmapChainMissing() {
        Root here = root();
        int slot = here == null || here.directory() == null ? -1 : here.bitmap(found.geometry().activeFat());
        if (slot < 0) {
            return SectorRanges.EMPTY;
        }
        Fat fat = new Fat(site, found.geometry());
        long wanted = found.geometry().clustersOf((found.geometry().clusters() + 7) / 8);
        Chain chain = Chain.follow(fat, here.directory().u32(slot, 20), wanted);
        return chain.end() == Chain.End.UNREAD && chain.clusters() < wanted ? fat.missing(chain.last()) : SectorRanges.EMPTY;
    }

    @Override
    public VolumeInfo info() {
        Geometry geometry = found.geometry();
        Root here = root();
        int size = site.image().sectorSize();
        SectorRange range = geometry == null ? site.range()
                : new SectorRange(site.range().first(), Math.max(1, geometry.bytes() / size + (geometry.bytes() % size == 0 ? 0 : 1)));
        return new VolumeInfo("exfat", range, here == null || here.directory() == null ? null : here.label(), null,
                found.source() != Found.Source.STRUCTURES && found.layout().window().isRead(0, BootSector.SIZE) ? found.layout().serial() : null, null,
                geometry == null ? null : (long) geometry.clusterBytes(), geometry == null ? null : geometry.bytes(), used(), null,
                remarks());
    }

    private List<String> remarks() {
        if (found.geometry() == null) {
            return List.of("the boot sector is damaged and no backup helps");
        }
        if (found.source() == Found.Source.MAIN) {
            int flags = found.main().flags();
            return (flags & 6) == 0 ? List.of() : (flags & 4) == 0 ? List.of("not closed cleanly") : (flags & 2) == 0
                    ? List.of("failed reads or writes are recorded") : List.of("not closed cleanly", "failed reads or writes are recorded");
        }
        int size = found.geometry().sectorBytes();
        BootRegion main = BootRegion.of(site, BootRegion.MAIN, size);
        boolean proved = !main.missing().isEmpty() && main.filledFrom(BootRegion.of(site, BootRegion.BACKUP, size)).sound();
        return List.of("layout taken from the backup boot region" + (proved
                ? "; put in place of what was not read, it fits the checksum of the main region" : ""));
    }

    private Long used() {
        Bitmap bitmap = bitmap();
        if (bitmap == null || bitmap.bytes() > COUNTED || bitmap.bytes() < (found.geometry().clusters() + 7) / 8) {
            return null;
        }
        long used = 0;
        for (long i = 0; i < bitmap.bytes(); i++) {
            int eight = bitmap.eight(i);
            if (eight < 0) {
                return null;
            }
            used += Integer.bitCount(eight);
        }
        return used * found.geometry().clusterBytes();
    }

    @Override
    public List<Structure> structures() {
        return new ExfatStructures(site, found, root(), null).listed();
    }

    @Override
    public Optional<Structure> structureAt(long imageByte) {
        return new ExfatStructures(site, found, root(), capability(ExfatFiles.class).orElse(null)).at(imageByte);
    }

    @Override
    public OptionalLong address(String kind, long target) {
        Geometry geometry = found.geometry();
        if (kind.equals("cluster")) {
            return geometry != null && geometry.exists(target) ? OptionalLong.of(site.firstByte() + geometry.clusterByte(target))
                    : OptionalLong.empty();
        }
        if (kind.equals("sector") && geometry != null) {
            return target >= 0 && target < geometry.volumeLength()
                    ? OptionalLong.of(site.firstByte() + target * geometry.sectorBytes()) : OptionalLong.empty();
        }
        return Volume.super.address(kind, target);
    }

    /** PartitionOffset, where it is set (section 3.1.4: 0 is to be ignored). */
    @Override
    public List<Witness> witnesses() {
        Geometry geometry = found.geometry();
        long sectors = geometry == null || found.source() == Found.Source.STRUCTURES ? 0 : found.layout().partitionOffset();
        if (sectors <= 0 || sectors > Long.MAX_VALUE / geometry.sectorBytes()) {
            return List.of();
        }
        return List.of(new Witness(site.firstByte(), sectors * geometry.sectorBytes(), "exFAT boot sector"));
    }

    @Override
    public List<Role> roles() {
        return root() == null ? List.of() : root().roles();
    }

    @Override
    public void check(Level level, Checks out) {
        check(level, out, Progress.NONE);
    }

    @Override
    public void check(Level level, Checks out, Progress progress) {
        new ExfatCheck(this, out, progress).run(level);
    }
}
