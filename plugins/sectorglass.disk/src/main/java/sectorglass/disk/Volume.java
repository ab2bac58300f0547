package sectorglass.disk;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.image.Progress;
import sectorglass.verify.Checks;

/** A recognised volume. */
public interface Volume extends Structures {

    /** What it says of itself. */
    VolumeInfo info();

    /** Where it was found. */
    VolumeSite site();

    /** Judges it; reports every rule that applies. */
    void check(Level level, Checks out);

    /** The same for long work: a volume whose full check takes more than a moment shows how far it is and can be stopped. */
    default void check(Level level, Checks out, Progress progress) {
        check(level, out);
    }

    /** What it is probably for, from its content. */
    default List<Role> roles() {
        return List.of();
    }

    /** Structures that know their own place. */
    default List<Witness> witnesses() {
        return List.of();
    }

    /**
     * Image byte that a pointer of this volume means.
     *
     * @param kind {@code sector}, {@code cluster}, {@code record} or {@code byte}
     */
    default OptionalLong address(String kind, long target) {
        return switch (kind) {
            case "sector" -> OptionalLong.of(site().firstByte() + target * site().image().sectorSize());
            case "byte" -> OptionalLong.of(site().firstByte() + target);
            default -> OptionalLong.empty();
        };
    }

    /**
     * A service of this volume: its files, allocation, content, reading order, repairs.
     *
     * @param kind an interface of this package
     */
    default <T> Optional<T> capability(Class<T> kind) {
        return kind.isInstance(this) ? Optional.of(kind.cast(this)) : Optional.empty();
    }
}
