package sectorglass.fuzz;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.ContentKind;
import sectorglass.make.DataFile;
import sectorglass.make.DiskDescription;
import sectorglass.make.DiskMaker;
import sectorglass.make.Folder;
import sectorglass.make.Node;
import sectorglass.make.Times;
import sectorglass.make.VolumeDescription;
import sectorglass.make.VolumeKind;

/** Small sound volumes to be damaged: folders in folders, long and short names, files in pieces, a folder of two clusters. */
final class SmallVolumes {
    private static final Times WHEN = Times.at(Instant.parse("2024-05-06T07:08:10Z"));

    private SmallVolumes() {
    }

    /** The bytes of a volume. @param sectors of 512 bytes, as few as the kind allows */
    static byte[] make(VolumeKind kind, long sectors, int clusterBytes) {
        List<Node> photos = new ArrayList<>();
        for (int i = 0; i < 24; i++) {
            photos.add(DataFile.of("Picture " + i + " of a long day.jpg", 100 + 700 * i, ContentKind.NOTICE, WHEN).inPieces(i % 5 == 2 ? 3 : 1));
        }
        Folder root = Folder.root(WHEN, DataFile.of("README.TXT", 700, ContentKind.NOTICE, WHEN),
                Folder.of("DCIM", WHEN, Folder.of("100PHOTO", WHEN, photos.toArray(Node[]::new))),
                DataFile.of("EMPTY.DAT", 0, ContentKind.ZERO, WHEN));
        try {
            Path file = Files.createTempFile("volume", ".img");
            Files.delete(file);
            DiskMaker.withoutPlaces().make(DiskDescription.volume(sectors, 512, 1,
                    new VolumeDescription(kind, "SMALL", 0x1234ABCDL, clusterBytes, root)), file);
            byte[] bytes = Files.readAllBytes(file);
            Files.delete(file);
            return bytes;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
