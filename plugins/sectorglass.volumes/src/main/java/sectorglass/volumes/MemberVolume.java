package sectorglass.volumes;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Level;
import sectorglass.disk.Role;
import sectorglass.disk.SetMember;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.verify.Checks;

/**
 * A member of a set.
 *
 * @param headers the volume of its headers
 * @param member its part in the set
 */
record MemberVolume(Volume headers, SetMember member) implements Volume {

    @Override
    public VolumeInfo info() {
        return headers.info();
    }

    @Override
    public VolumeSite site() {
        return headers.site();
    }

    @Override
    public List<Structure> structures() {
        return headers.structures();
    }

    @Override
    public Optional<Structure> structureAt(long imageByte) {
        return headers.structureAt(imageByte);
    }

    @Override
    public void check(Level level, Checks out) {
        headers.check(level, out);
    }

    @Override
    public List<Role> roles() {
        return headers.roles();
    }

    @Override
    public OptionalLong address(String kind, long target) {
        return headers.address(kind, target);
    }

    @Override
    public <T> Optional<T> capability(Class<T> kind) {
        return kind.isInstance(member) ? Optional.of(kind.cast(member)) : headers.capability(kind);
    }
}
