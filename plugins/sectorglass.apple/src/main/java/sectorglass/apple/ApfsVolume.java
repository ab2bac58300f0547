package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Level;
import sectorglass.disk.Role;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.image.SafeText;
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

    /** By the roles and flags of the volumes (Apple File System Reference, "Volume Roles"). */
    @Override
    public List<Role> roles() {
        List<Role> roles = new ArrayList<>();
        for (ApfsVolumeHeader volume : container == null ? List.<ApfsVolumeHeader>of() : container.volumes().found()) {
            VolumeFacts.known(() -> {
                Role.Kind kind = switch (volume.roleNumber()) {
                    case 1 -> Role.Kind.OPERATING_SYSTEM;
                    case 0, 2, 0x40, 0x180 -> Role.Kind.USER_FOLDERS;
                    case 4, 0x20, 0xC0 -> Role.Kind.RECOVERY;
                    case 8 -> Role.Kind.SWAP;
                    case 0x10 -> Role.Kind.BOOT;
                    default -> null;
                };
                String name = "\"" + SafeText.of(String.valueOf(volume.name())) + "\"";
                if (kind != null) {
                    roles.add(Role.of(kind, "the container holds the volume " + name + ", role " + volume.role()));
                }
                return !volume.encrypted() || roles.add(Role.of(Role.Kind.ENCRYPTED, "the volume " + name + " is encrypted"));
            });
        }
        return roles;
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
