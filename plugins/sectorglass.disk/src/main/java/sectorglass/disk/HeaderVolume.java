package sectorglass.disk;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.verify.Checks;

/**
 * A volume of which the headers are known.
 *
 * @param info what the headers say
 * @param site where it lies
 * @param structures its headers and their copies, by address
 * @param roles what it is probably for
 * @param judge checks the headers
 * @param services further capabilities
 */
public record HeaderVolume(VolumeInfo info, VolumeSite site, List<Structure> structures, List<Role> roles, Judge judge,
        List<Object> services) implements Volume {

    /** A volume without further capabilities. */
    public HeaderVolume(VolumeInfo info, VolumeSite site, List<Structure> structures, List<Role> roles, Judge judge) {
        this(info, site, structures, roles, judge, List.of());
    }

    /** The rules of one kind. */
    @FunctionalInterface
    public interface Judge {
        /** Checks the volume. */
        void check(Level level, Checks out);
    }

    @Override
    public OptionalLong address(String kind, long target) {
        if (!kind.equals("cluster") || info.clusterBytes() == null || target < 0 || Math.multiplyHigh(target, info.clusterBytes()) != 0
                || target * info.clusterBytes() < 0 || target * info.clusterBytes() > Long.MAX_VALUE - site.firstByte()) {
            return Volume.super.address(kind, target);
        }
        return OptionalLong.of(site.firstByte() + target * info.clusterBytes());
    }

    @Override
    public <T> Optional<T> capability(Class<T> kind) {
        return services.stream().filter(kind::isInstance).findFirst().map(kind::cast);
    }

    @Override
    public void check(Level level, Checks out) {
        judge.check(level, out);
    }
}
