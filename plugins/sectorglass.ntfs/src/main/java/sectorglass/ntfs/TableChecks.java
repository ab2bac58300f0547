package sectorglass.ntfs;

import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;

/**
 * Whether the file table can be found the usual way: by record 0 where the boot sector points, or by its mirror. Where neither can be
 * used the finding tells how the table was found all the same. Source: NTFS-3G libntfs-3g/volume.c.
 */
final class TableChecks {
    private final FileTable table;

    TableChecks(FileTable table) {
        this.table = table;
    }

    void run(Checks out) {
        Geometry geometry = table.geometry();
        if (table.origin() == FileTable.Origin.MIRROR || !BootSector.lcnLegal(geometry.mftLcn(), geometry)) {
            return; // the rules of record 0, of the boot sector, name what is wrong
        }
        ByteRange where = new ByteRange(geometry.clusterByte(geometry.mftLcn()), geometry.recordBytes());
        out.in(where).report("ntfs.table.start", where, outcome(geometry, where));
    }

    private Outcome outcome(Geometry geometry, ByteRange where) {
        if (table.origin() == FileTable.Origin.RECORD_0) {
            return Outcome.passed();
        }
        SectorImage image = table.image();
        SectorRanges missing = unread(image, where.start());
        if (BootSector.lcnLegal(geometry.mirrorLcn(), geometry)) {
            missing = missing.union(unread(image, geometry.clusterByte(geometry.mirrorLcn())));
        }
        if (!missing.isEmpty()) {
            return Outcome.unread(missing);
        }
        int pieces = table.runs().runs();
        Phrase found = switch (table.origin()) {
            case SCANNED -> new Phrase("table.scanned", Map.of("records", table.records(), "pieces", pieces));
            case ASSUMED -> new Phrase("table.assumed", Map.of("records", table.records()));
            default -> Phrase.of("table.none");
        };
        byte[] four = image.window(where.start(), 4).raw(0, 4);
        return Outcome.failed(Show.hex(four), "46 49 4C 45 (FILE)").with("found", found);
    }

    /** The sectors of a record that were not read. */
    private SectorRanges unread(SectorImage image, long place) {
        Window window = image.window(place, table.geometry().recordBytes());
        return window.missing(0, table.geometry().recordBytes());
    }
}
