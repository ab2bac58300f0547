package sectorglass.workbench.recovery.files;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileTree;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;

/** Where a file stands in the image. */
final class FilePlaces {

    private FilePlaces() {
    }

    /** Image byte of the file's record; where its volume has no records, of its first content. */
    static Optional<Long> of(FileVolume volume, FileTree tree, int entry) {
        long number = tree.number(entry);
        OptionalLong record = number < 0 ? OptionalLong.empty() : volume.volume().address("record", number);
        return record.isPresent() ? Optional.of(record.getAsLong()) : content(volume, entry).map(ByteRange::start);
    }

    /** The pieces of its content; empty where it has none. */
    static List<Extent> extents(FileVolume volume, int entry) {
        Content content = volume.files().content(entry, "");
        return content == null ? List.of() : content.extents();
    }

    /** The sectors of the contents of some files; folders have none. */
    static SectorRanges sectors(FileVolume volume, List<Integer> entries, int sectorSize) {
        SectorRanges all = SectorRanges.EMPTY;
        for (int entry : entries) {
            all = all.union(Extent.sectors(extents(volume, entry), sectorSize));
        }
        return all;
    }

    /** Image bytes of the first piece of its content that stands somewhere. */
    static Optional<ByteRange> content(FileVolume volume, int entry) {
        Content content = volume.files().content(entry, "");
        if (content == null) {
            return Optional.empty();
        }
        for (Extent extent : content.extents()) {
            if (extent.placed()) {
                return Optional.of(new ByteRange(extent.imageByte(), extent.stored()));
            }
        }
        return Optional.empty();
    }
}
