package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DamageTest {
    @TempDir
    private Path folder;

    @Test
    void plantsInOrderAndTellsWhatItDid() throws IOException {
        try (SparseFile disk = SparseFile.create(folder.resolve("d.img"), 4096)) {
            List<PlantedFault> faults = Damage.plant(disk, List.of(
                    Damage.fill("a.fill", "Filled.", 100, 4, 0xEE),
                    Damage.flip("a.flip", "Flipped.", 101, 0x01),
                    Damage.put("a.put", "Put.", 103, (byte) 1, (byte) 2).inFull(),
                    Damage.by("a.by", "Copied.", 0, 2, medium -> medium.write(0, medium.read(103, 2)))));
            assertArrayEquals(new byte[] {(byte) 0xEE, (byte) 0xEF, (byte) 0xEE, 1, 2}, disk.read(100, 5));
            assertArrayEquals(new byte[] {1, 2}, disk.read(0, 2));
            assertEquals(List.of(
                    new PlantedFault("a.fill", 100, 4, "Filled.", false),
                    new PlantedFault("a.flip", 101, 1, "Flipped.", false),
                    new PlantedFault("a.put", 103, 2, "Put.", true),
                    new PlantedFault("a.by", 0, 2, "Copied.", false)), faults);
        }
    }
}
