package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class BigVolumeTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @EnumSource(names = {"FAT32", "EXFAT", "NTFS", "EXT4"})
    void severalThousandFilesAreSound(VolumeKind kind) throws IOException {
        Path image = folder.resolve("many.img");
        BigVolume.main(kind.name(), image.toString(), "5000");
        Soundness.assertSound(kind, image);
    }

    @Test
    void namesAreOf24CharactersAndEveryFileIsThere() {
        Folder files = (Folder) BigVolume.describe(VolumeKind.NTFS, 3000).volume().root().children().get(1);
        assertEquals(3, files.children().size());
        Folder last = (Folder) files.children().get(2);
        assertEquals("picture-0002-0000999.jpg", last.children().get(999).name());
        assertEquals(24, last.children().get(999).name().length());
    }
}
