package sectorglass.workbench.commands;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.disk.Disk;
import sectorglass.disk.MapEntry;
import sectorglass.disk.Partition;
import sectorglass.disk.PartitionMap;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.workbench.model.OpenDisk;

class PlaceWordsTest {
    private static final class Blank implements SectorImage {
        @Override
        public String name() {
            return "blank";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public long bytes() {
            return 100_000 * 512L;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            return SectorStates.allRead(512, firstByte, length);
        }

        @Override
        public ReadState state(long lba) {
            return ReadState.READ;
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            return SectorRanges.EMPTY;
        }
    }

    private static PlaceWords words() {
        MapEntry entry = new MapEntry(1, new SectorRange(2048, 1000), "07", null, null, null, false, MapEntry.Use.PARTITION, new ByteRange(446, 16),
                List.of());
        PartitionMap backup = new PartitionMap("gpt", 99_999, null, PartitionMap.Copy.BACKUP, false, null, List.of(), List.of(), List.of());
        Disk disk = new Disk(new Blank(), List.of(new Disk.FoundMap(backup, null)), List.of(new Partition(2, 0, entry, List.of(), null)), null);
        return new PlaceWords(OpenDisk.surveyed(null, disk, List.of()), 4096);
    }

    @ParameterizedTest
    @CsvSource({"0,0", "2048,1048576", "0x800,1048576", "lba 1,512", "byte 1000,1000", "partition 2,1048576", "start of partition 2,1048576",
        "end of partition 2,1560064", "Backup GPT,51199488", "+1,4608", "-1,3584", "Ende von Partition 2,1560064", "end,51199999"})
    void placesAreUnderstood(String typed, long address) {
        assertEquals(address, words().address(typed).orElseThrow());
    }

    @ParameterizedTest
    @CsvSource({"100000", "partition 3", "cluster 5", "-9", "somewhere", "9223372036854775807", "byte 99999999999"})
    void whatIsNoPlaceIsNone(String typed) {
        assertTrue(words().address(typed).isEmpty());
    }

    @Test
    void nothingIsNoPlace() {
        assertTrue(words().address("").isEmpty());
    }
}
