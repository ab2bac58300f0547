package sectorglass.disk;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

import sectorglass.image.SectorRange;

/**
 * Decides which entries are listed as partitions and in which order: maps by LBA, container before content, entries by slot. Second
 * copies and leftovers are not listed, except where a backup is all that is left of its map.
 */
final class Listing {

    /** An entry to be listed and the index of its map. */
    record Slot(int map, MapEntry entry) { }

    private Listing() {
    }

    static List<Slot> of(List<PartitionMap> maps) {
        List<Slot> slots = new ArrayList<>();
        Set<SectorRange> seen = new TreeSet<>();
        for (int i = 0; i < maps.size(); i++) {
            PartitionMap map = maps.get(i);
            if (map.leftover() || map.copy() == PartitionMap.Copy.BACKUP && hasPrimary(maps, map)) {
                continue;
            }
            for (MapEntry entry : map.entries()) {
                if (entry.use() == MapEntry.Use.PARTITION && entry.range().count() > 0 && seen.add(entry.range())) {
                    slots.add(new Slot(i, entry));
                }
            }
        }
        return slots;
    }

    private static boolean hasPrimary(List<PartitionMap> maps, PartitionMap backup) {
        return maps.stream().anyMatch(m -> m != backup && m.kind().equals(backup.kind()) && !m.leftover()
                && !m.entries().isEmpty() && (m.copy() == PartitionMap.Copy.PRIMARY || m.lba() < backup.lba()));
    }
}
