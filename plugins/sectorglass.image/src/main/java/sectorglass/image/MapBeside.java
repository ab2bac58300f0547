package sectorglass.image;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The read map that lies beside an image under its name: {@code disk.img.read-map.csv}, {@code disk.img.csv} or {@code disk.csv}. */
final class MapBeside {
    private static final int HEAD = 4096;

    private MapBeside() { }

    /** The first of these files that begins as a read map does; files of other tables may bear such names, too. */
    static Optional<Path> of(Path image) {
        if (image.getFileName() == null) {
            return Optional.empty();
        }
        String name = image.getFileName().toString();
        int dot = name.lastIndexOf('.');
        String stem = dot > 0 ? name.substring(0, dot) : name;
        return List.of(name + ".read-map.csv", stem + ".read-map.csv", name + ".csv", stem + ".csv").stream().map(image::resolveSibling)
                .filter(file -> !file.equals(image) && Files.isRegularFile(file) && titled(file)).findFirst();
    }

    /** Whether the first line that is no comment is the title line of a read map. */
    private static boolean titled(Path file) {
        try (InputStream in = Files.newInputStream(file)) {
            String head = new String(in.readNBytes(HEAD), StandardCharsets.UTF_8);
            return head.lines().map(line -> line.strip().toLowerCase(Locale.ROOT)).filter(line -> !line.isEmpty() && !line.startsWith("#")).findFirst()
                    .filter(line -> line.contains("first_lba") && line.contains("sectors") && line.contains("state")).isPresent();
        } catch (IOException e) {
            return false;
        }
    }
}
