package sectorglass.practice.lesson;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** A teacher's folder of lessons. Folders below it are not looked into. */
public final class FolderLessons implements LessonPack {
    private final Path folder;

    /** The lessons of a folder. */
    public FolderLessons(Path folder) {
        this.folder = folder;
    }

    @Override
    public String name() {
        return folder.toString();
    }

    @Override
    public List<String> files() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(Files::isRegularFile).map(file -> file.getFileName().toString()).sorted().toList();
        }
    }

    @Override
    public InputStream open(String file) throws IOException {
        return Files.newInputStream(folder.resolve(file));
    }
}
