package sectorglass.recovery;

import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Sighting;
import sectorglass.disk.Volume;
import sectorglass.image.Progress;

/** Finds the files of a volume in whose content structures lie. Existing files are asked before deleted ones. */
final class FileOwners {
    private final Volume volume;

    FileOwners(Volume volume) {
        this.volume = volume;
    }

    /** The file of each sighting that lies in one. */
    Map<Sighting, InsideFile> of(List<Sighting> sightings, Progress progress) {
        Map<Sighting, InsideFile> found = new IdentityHashMap<>();
        Files files = volume.capability(Files.class).orElse(null);
        if (files == null) {
            return found;
        }
        Sighting[] sorted = sightings.stream().sorted(Comparator.comparingLong(s -> s.where().start())).toArray(Sighting[]::new);
        long[] places = java.util.Arrays.stream(sorted).mapToLong(s -> s.where().start()).toArray();
        FileTree tree = files.tree(progress);
        for (int turn = 0; turn < 2 && found.size() < sorted.length; turn++) {
            for (int entry = 0; entry < tree.size(); entry++) {
                if ((entry & 0x3FF) == 0) {
                    progress.checkCancelled();
                    progress.at("files", entry, tree.size());
                }
                if (!tree.folder(entry) && tree.deleted(entry) == (turn == 1) && tree.bytes(entry) != 0) {
                    ask(files, tree, entry, sorted, places, found);
                }
            }
        }
        return found;
    }

    private void ask(Files files, FileTree tree, int entry, Sighting[] sorted, long[] places, Map<Sighting, InsideFile> found) {
        Content content = files.content(entry, "");
        if (content == null) {
            return;
        }
        for (Extent extent : content.extents()) {
            if (!extent.placed() || extent.kind() == Extent.Kind.RESIDENT) {
                continue;
            }
            int at = java.util.Arrays.binarySearch(places, extent.imageByte());
            for (int i = at >= 0 ? first(places, at) : -at - 1; i < places.length && places[i] < extent.imageByte() + extent.stored(); i++) {
                found.putIfAbsent(sorted[i], new InsideFile(volume.site().firstByte(), volume.info().kind(), tree.path(entry),
                        tree.deleted(entry), extent.offset() + places[i] - extent.imageByte()));
            }
        }
    }

    private static int first(long[] places, int at) {
        int i = at;
        while (i > 0 && places[i - 1] == places[at]) {
            i--;
        }
        return i;
    }
}
