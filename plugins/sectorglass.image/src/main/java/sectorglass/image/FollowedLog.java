package sectorglass.image;

import java.nio.file.Path;
import java.util.Locale;

import sectorglass.image.OpenImage.Now;
import sectorglass.image.OpenImage.Refresh;
import sectorglass.image.OpenImage.Troubles;
import sectorglass.image.ReadStateSources.Kind;

/** Looks at the files anew, and reads a text log again that was taken in after the image was opened, if it has changed since. */
final class FollowedLog implements Refresh {
    private final Refresh below;
    private final Path file;
    private final TextLog reading;
    private final Locale locale;
    private final Troubles troubles;
    private FileStamp stamp;

    FollowedLog(Refresh below, Path file, TextLog reading, Locale locale, Troubles troubles, FileStamp stamp) {
        this.below = below;
        this.file = file;
        this.reading = reading;
        this.locale = locale;
        this.troubles = troubles;
        this.stamp = stamp;
    }

    @Override
    public Now look(OpenImage image, Now before) {
        Now after = below.look(image, before);
        FileStamp now = FileStamp.of(file);
        boolean taken = after.sources().sources().stream().anyMatch(source -> source.kind() == Kind.TEXT_LOG && source.name().equals(file.toString()));
        if (!taken || now == null || now.equals(stamp)) {
            return after;
        }
        try {
            ReadMap map = reading.again(file, image.sectorSize(), locale, Progress.NONE).map();
            stamp = now;
            return Now.of(after.files(), image.dumpForm().form(), after.sources().replaced(Kind.TEXT_LOG, file.toString(), map), image.sectorSize());
        } catch (ImageException e) {
            troubles.add(e.getMessage());
            return after;
        }
    }
}
