package sectorglass.recovery;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;

/**
 * The further disks of a set, opened as a job file names them.
 *
 * @param images those that could be opened; the caller closes them
 * @param refused why others could not, in sentences
 */
public record FurtherDisks(List<OpenImage> images, List<String> refused) {

    /**
     * Opens them.
     *
     * @param folder that relative names count from
     */
    public static FurtherDisks open(List<Job.FurtherDisk> disks, Path folder, Locale locale) {
        List<OpenImage> images = new ArrayList<>();
        List<String> refused = new ArrayList<>();
        for (Job.FurtherDisk disk : disks) {
            try {
                Path map = disk.readMap() == null ? null : folder.resolve(disk.readMap());
                images.add(Images.open(folder.resolve(disk.file()), OpenOptions.DEFAULT.withReadMap(map).withLocale(locale)));
            } catch (ImageException | java.nio.file.InvalidPathException e) {
                refused.add(e.getMessage());
            }
        }
        return new FurtherDisks(images, refused);
    }

    /** Closes what was opened. */
    public void close() {
        images.forEach(OpenImage::close);
    }
}
