package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Specs;

/** The specs decode what mke2fs writes without a field out of order, and structures are found by their place. */
class SpecsTest {

    @ParameterizedTest
    @ValueSource(strings = {"e2", "e3", "e4", "e4seed"})
    void structuresDecode(String name) {
        List<String> problems = new ArrayList<>();
        Volume volume = Forced.open(DiskFile.of(ExtImages.image(name)));
        int count = Specs.decode(volume, problems);
        assertEquals(List.of(), problems);
        assertTrue(count > 10, count + " structures");
    }

    @ParameterizedTest
    @ValueSource(longs = {41216, 137 * 4096 + 100, 74 * 4096 + 50, 4096 + 64, 1100})
    void structuresByPlace(long at) {
        Volume volume = Forced.open(DiskFile.of(ExtImages.image("e4")));
        Structure found = volume.structureAt(at).orElseThrow();
        String expected = at == 41216 ? "ext_inode" : at == 1100 ? "ext_superblock" : at == 4096 + 64 ? "ext_group_descriptor"
                : at > 137 * 4096 ? "ext_extent_node" : "ext_directory_block";
        assertEquals(expected, found.format());
        assertTrue(found.range().contains(at));
    }
}
