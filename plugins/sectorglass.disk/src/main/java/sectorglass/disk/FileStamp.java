package sectorglass.disk;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;

/**
 * A time as a file system keeps it.
 *
 * @param local date and time as written
 * @param offset the zone it was written in, or null where the file system does not say (FAT): it is then the local time of the
 *     computer that wrote it
 */
public record FileStamp(LocalDateTime local, ZoneOffset offset) {

    /** A moment that is known in every zone. */
    public static FileStamp of(Instant moment) {
        return moment == null ? null : new FileStamp(LocalDateTime.ofInstant(moment, ZoneOffset.UTC), ZoneOffset.UTC);
    }

    /** A local time of an unknown zone. */
    public static FileStamp local(LocalDateTime local) {
        return local == null ? null : new FileStamp(local, null);
    }

    /** The moment; one of an unknown zone is taken as of the given one. */
    public Instant instant(ZoneId assumed) {
        return offset != null ? local.toInstant(offset) : local.atZone(assumed).toInstant();
    }

    /** ISO 8601; without zone where none is known. */
    @Override
    public String toString() {
        return offset == null ? local.toString() : local.atOffset(offset).toString();
    }
}
