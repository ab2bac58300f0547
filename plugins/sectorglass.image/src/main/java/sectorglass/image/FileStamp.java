package sectorglass.image;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;

/** Tells whether a file was written since it was looked at. */
record FileStamp(long bytes, FileTime modified) {

    /** The stamp of a file; null where there is no file to look at. */
    static FileStamp of(Path file) {
        try {
            return file == null ? null : new FileStamp(Files.size(file), Files.getLastModifiedTime(file));
        } catch (IOException e) {
            return null;
        }
    }
}
