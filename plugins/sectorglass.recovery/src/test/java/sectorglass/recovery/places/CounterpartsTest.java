package sectorglass.recovery.places;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.disk.Disk;
import sectorglass.disk.Disk.FoundMap;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.Structure;

class CounterpartsTest {

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"primary GPT header | backup GPT header", "boot sector | boot sector, copy", "boot sector | backup boot sector",
        "file record 3 | mirror of file record 3", "file record 0, $MFT | mirror of file record 0", "FAT 1 from entry 0 | FAT 2 from entry 0", "superblock | backup superblock of group 1"})
    void copiesHaveOnePlainName(String one, String other) {
        assertEquals(Counterparts.plain(one), Counterparts.plain(other));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"file record 3 | mirror of file record 4", "FAT 1 from entry 0 | FAT 2 from entry 512", "GPT header | GPT entries"})
    void othersDoNot(String one, String other) {
        assertEquals(false, Counterparts.plain(one).equals(Counterparts.plain(other)));
    }

    /** The backup header lies in the last sector, the primary in LBA 1 (UEFI 2.10, section 5.3.2). */
    @Test
    void aHeaderFindsItsBackup() {
        Structure primary = Structure.plain("primary GPT header", "gpt_header", 512, 512, Map.of());
        Structure backup = Structure.plain("backup GPT header", "gpt_header", 99 * 512, 512, Map.of());
        Structure entries = Structure.plain("primary GPT entries", "gpt_entries", 1024, 512, Map.of());
        Disk disk = new Disk(null, List.of(map(List.of(primary, entries)), map(List.of(backup))), List.of(), null);
        assertEquals(List.of(backup), Counterparts.of(disk, primary));
        assertEquals(List.of(primary), Counterparts.of(disk, backup));
        assertEquals(List.of(), Counterparts.of(disk, entries));
    }

    private static FoundMap map(List<Structure> structures) {
        return new FoundMap(new PartitionMap("gpt", 1, null, PartitionMap.Copy.PRIMARY, false, null, List.of(), List.of(), structures), null);
    }
}
