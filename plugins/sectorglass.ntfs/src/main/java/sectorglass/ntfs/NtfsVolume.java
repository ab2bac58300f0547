package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Level;
import sectorglass.disk.Role;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.disk.Witness;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.verify.Checks;

/** An NTFS volume. */
final class NtfsVolume implements Volume {
    private final VolumeSite site;
    private final BootFound boot;
    private final Geometry geometry;
    private final TableSource source;
    private final NtfsFiles files;
    private final NtfsAllocation allocation;
    private final NtfsReadOrder order;
    private final NtfsRepairs repairs;
    private final NtfsWay way;
    private final NtfsCopy copy;
    private final BlockCheck check = new BlockCheck();
    private List<Structure> listed;
    private FileTable listedOf;

    NtfsVolume(VolumeSite site, BootFound boot) {
        this.site = site;
        this.boot = boot;
        this.geometry = boot.geometry();
        this.source = new TableSource(site.image(), geometry);
        this.files = new NtfsFiles(source);
        this.allocation = new NtfsAllocation(source, files);
        this.order = new NtfsReadOrder(source);
        this.repairs = new NtfsRepairs(boot, source, site);
        this.way = new NtfsWay(this);
        this.copy = new NtfsCopy(this);
    }

    BootFound boot() {
        return boot;
    }

    FileTable table() {
        return source.table();
    }

    VolumeFacts facts() {
        return source.now().facts();
    }

    @Override
    public VolumeInfo info() {
        VolumeFacts facts = facts();
        int size = site.image().sectorSize();
        long bytes = geometry.sectors() * geometry.sectorBytes();
        long sectors = (bytes + geometry.sectorBytes() + size - 1) / size;
        String serial = boot.fromRecords() ? null : String.format(Locale.ROOT, "%016X", geometry.serial());
        return new VolumeInfo("ntfs", new SectorRange(site.range().first(), sectors), facts.label == null || facts.label.isEmpty()
                ? null : facts.label, null, serial, null, (long) geometry.clusterBytes(), bytes, facts.usedBytes, facts.latest, remarks());
    }

    private List<String> remarks() {
        List<String> remarks = new ArrayList<>();
        VolumeFacts facts = facts();
        if (boot.fromRecords()) {
            remarks.add("neither the boot sector nor its copy can be used; the measures were put together from file records");
        } else if (boot.backup()) {
            remarks.add("the first sector cannot be used; its copy at image byte " + boot.byteFound() + " was taken instead");
        }
        switch (table().origin()) {
            case MIRROR -> remarks.add("file record 0 cannot be used; its copy in the mirror was taken instead");
            case ASSUMED -> remarks.add("file record 0 and its copy cannot be used; the file table is assumed to go on from its first cluster");
            case SCANNED -> remarks.add("the file table was put together from records found by scanning");
            case NONE -> remarks.add("no file record was found where the boot sector points, or it was not read");
            default -> { }
        }
        if (facts.usedRemark != null) {
            remarks.add(facts.usedRemark);
        }
        if (Boolean.TRUE.equals(facts.dirty)) {
            remarks.add("not closed cleanly: the volume's dirty flag is set");
        }
        return remarks;
    }

    @Override
    public VolumeSite site() {
        return site;
    }

    @Override
    public void check(Level level, Checks out) {
        check(level, out, Progress.NONE);
    }

    @Override
    public void check(Level level, Checks out, Progress progress) {
        new NtfsChecks(site, boot, source).run(level, out, progress);
    }

    @Override
    public List<Role> roles() {
        return RootRoles.of(facts().rootNames);
    }

    @Override
    public List<Witness> witnesses() {
        return new Witnesses(table(), site).all();
    }

    @Override
    public OptionalLong address(String kind, long target) {
        if (target < 0) {
            return OptionalLong.empty();
        }
        return switch (kind) {
            case "cluster" -> geometry.holds(target, 1) ? OptionalLong.of(geometry.clusterByte(target)) : OptionalLong.empty();
            case "record" -> {
                long at = table().address(target & RecordView.NUMBER_MASK);
                yield at < 0 ? OptionalLong.empty() : OptionalLong.of(at);
            }
            case "sector" -> target <= geometry.sectors()
                    ? OptionalLong.of(geometry.firstByte() + target * geometry.sectorBytes()) : OptionalLong.empty();
            case "byte" -> OptionalLong.of(geometry.firstByte() + target);
            default -> OptionalLong.empty();
        };
    }

    @Override
    public <T> Optional<T> capability(Class<T> kind) {
        for (Object service : new Object[] {files, allocation, order, repairs, way, copy, check, this}) {
            if (kind.isInstance(service)) {
                return Optional.of(kind.cast(service));
            }
        }
        return Optional.empty();
    }

    @Override
    public synchronized List<Structure> structures() {
        FileTable table = table();
        if (listedOf != table) {
            listed = new NtfsStructures(table).listed();
            listedOf = table;
        }
        return listed;
    }

    @Override
    public Optional<Structure> structureAt(long imageByte) {
        return new NtfsStructures(table()).at(imageByte, structures());
    }
}
