package sectorglass.apple;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Level;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.verify.Checks;

/** An APFS container with its volumes. */
final class ApfsVolume implements Volume {
    private final VolumeSite site;
    private final VolumeInfo info;
    private final List<Structure> structures;
    private final ApfsContainer container;
    private final List<Object> services;

    /** @param container by the superblock that is believed, or null where it was not read */
    ApfsVolume(VolumeSite site, VolumeInfo info, List<Structure> structures, ApfsContainer container) {
        this.site = site;
        this.info = info;
        this.structures = List.copyOf(structures);
        this.container = container;
        if (container == null) {
            services = List.of();
        } else {
            ApfsFiles files = new ApfsFiles(container);
            ApfsAllocation allocation = new ApfsAllocation(container, files);
            services = List.of(files, allocation, new ApfsReadOrder(container, allocation));
        }
    }

    @Override
    public VolumeInfo info() {
        return info;
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
        if (container != null) {
            new ApfsChecks(container, out).check(level, progress);
        }
    }

    @Override
    public OptionalLong address(String kind, long target) {
        if (kind.equals("cluster")) {
            return container == null || target < 0 || !container.header(target).inside() ? OptionalLong.empty()
                    : OptionalLong.of(container.header(target).whole().start());
        }
        return Volume.super.address(kind, target);
    }

    @Override
    public <T> Optional<T> capability(Class<T> kind) {
        return services.stream().filter(kind::isInstance).findFirst().map(kind::cast);
    }

    @Override
    public List<Structure> structures() {
        return structures;
    }

    /** Also every block that holds an object of a known kind. */
    @Override
    public Optional<Structure> structureAt(long imageByte) {
        Optional<Structure> found = Volume.super.structureAt(imageByte);
        return found.isPresent() || container == null ? found : ApfsStructures.at(container, imageByte - site.firstByte());
    }
}
