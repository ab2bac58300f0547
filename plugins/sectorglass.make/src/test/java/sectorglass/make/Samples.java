package sectorglass.make;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.content.FileContent;

/** Descriptions for tests, and what is needed to look at what was made. */
final class Samples {
    static final Times TIMES = Times.at("2025-03-01T10:20:31Z");

    private Samples() {
    }

    /** A root with every content kind, long and short names, folders in folders, an empty file, pieces, a deleted file. */
    static Folder root() {
        return Folder.root(TIMES,
                DataFile.of("README.TXT", 900, ContentKind.NOTICE, TIMES),
                DataFile.of("Empty file.dat", 0, ContentKind.TEXT, TIMES),
                DataFile.of("A long name with many words in it.bin", 70_001, ContentKind.RANDOM, TIMES).inPieces(3),
                DataFile.of("thirteen.name", 13, ContentKind.TEXT, TIMES),
                DataFile.of("été.txt", 5_000, ContentKind.TEXT, TIMES).with(0x21),
                DataFile.of("gone away.txt", 9_000, ContentKind.TEXT, TIMES).asDeleted(),
                Folder.of("Pictures", TIMES,
                        DataFile.of("ridge.png", 40_000, ContentKind.PNG, TIMES),
                        DataFile.of("ridge.jpg", 30_000, ContentKind.JPEG, TIMES).inPieces(2),
                        Folder.of("Inner folder", TIMES, many(60, "Numbered entry "))),
                Folder.of("EMPTY", TIMES),
                Folder.of("Documents", TIMES,
                        DataFile.of("offer.pdf", 3_001, ContentKind.PDF, TIMES),
                        DataFile.of("parts.zip", 9_999, ContentKind.ZIP, TIMES),
                        DataFile.of("notes.wav", 12_000, ContentKind.WAV, TIMES)));
    }

    static List<DataFile> many(int count, String name) {
        List<DataFile> files = new ArrayList<>();
        for (int i = 1; i <= count; i++) {
            files.add(DataFile.of(name + i + ".txt", 100 + i, ContentKind.TEXT, TIMES));
        }
        return files;
    }

    static VolumeDescription volume(VolumeKind kind, int clusterBytes) {
        return new VolumeDescription(kind, "SAMPLE", kind == VolumeKind.NTFS ? 0x1122334455667788L : 0x1234ABCDL, clusterBytes, root());
    }

    /** Every file that is not deleted, with its path. */
    static List<String> paths(Folder folder, String before) {
        List<String> paths = new ArrayList<>();
        for (Node child : folder.children()) {
            if (child instanceof Folder inner) {
                paths.addAll(paths(inner, before + inner.name() + "/"));
            } else if (!((DataFile) child).deleted()) {
                paths.add(before + child.name());
            }
        }
        return paths;
    }

    static DataFile find(Folder folder, String path) {
        int slash = path.indexOf('/');
        String name = slash < 0 ? path : path.substring(0, slash);
        Node found = folder.children().stream().filter(c -> c.name().equals(name)).findFirst().orElseThrow();
        return slash < 0 ? (DataFile) found : find((Folder) found, path.substring(slash + 1));
    }

    /** What a file of volume 1 of a disk holds. */
    static byte[] content(DiskDescription disk, int volume, DataFile file, String path) throws IOException {
        try (var in = FileContent.open(file, SplitMix64.derive(disk.seed(), "volume " + volume), path)) {
            return in.readAllBytes();
        }
    }

    /** A made volume as a file of its own. */
    static Path make(Path folder, DiskDescription disk) throws IOException {
        Path file = Files.createTempFile(folder, "volume", ".img");
        DiskMaker.withoutPlaces().make(disk, file);
        return file;
    }
}
