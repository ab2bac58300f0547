package sectorglass.disk.way;

import java.util.List;
import java.util.Locale;

/** Explains how a file of a volume is reached from the volume's first sector: a capability of a {@link sectorglass.disk.Volume}. */
public interface FileWay {

    /**
     * The steps to the first byte of a file, or to the first entry of a folder. Goes as the file system's own driver does, without a list of all files; so
     * deleted files are not reached.
     *
     * @param parts names from the root on, each as {@link sectorglass.disk.FileTree#part} writes it; none for the root itself
     * @param locale language of the sentences
     * @return at least one step; the last one has {@link WayStep#stop} where the file is not reached. Never throws because of the bytes
     */
    List<WayStep> way(List<String> parts, Locale locale);
}
