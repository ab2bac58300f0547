package sectorglass.practice.lesson;

import java.nio.file.Path;

/**
 * A lesson's disk as it was made. It belongs to the reader, who may break it: it is made anew whenever it is asked for.
 *
 * @param name its name
 * @param image the image file
 * @param readMap the read map, or null where every sector is read
 */
public record LessonDisk(String name, Path image, Path readMap) { }
