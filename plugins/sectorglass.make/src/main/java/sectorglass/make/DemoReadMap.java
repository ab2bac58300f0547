package sectorglass.make;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * What of the partly read demo disk was not read: a row of failed places as from one bad head zone, a range that was skipped after
 * them, and the end that was never reached. The filler is a repeated text.
 */
final class DemoReadMap {
    /** What stands in sectors that were not read. */
    static final String FILLER = "NOT READ";

    private record Range(long first, long count, String state) {
        long end() {
            return first + count;
        }
    }

    private final long sectors;
    private final List<Range> missing = new ArrayList<>();

    DemoReadMap(MadeDisk disk) {
        sectors = disk.description().sectors();
        MadeVolume transfer = DemoDisk.volume(disk, VolumeKind.FAT32);
        MadeVolume card = DemoDisk.volume(disk, VolumeKind.EXFAT);
        // middle of one picture, one sector of a folder, a stretch of free space, a part of the first table that the second has
        failed(lba(transfer.file("Harbour in fog/Harbour selection 0006.jpg").runs().get(0).firstByte()) + 20, 6);
        failed(lba(transfer.file("Contact sheets").runs().get(0).firstByte()), 1);
        failed(lba(transfer.place("table 1")) + 3, 2);
        failed(lba(transfer.firstByte() + transfer.bytes()) - 5000, 40);
        MadeVolume archive = DemoDisk.volume(disk, VolumeKind.NTFS);
        // second half of a file record, the middle of a picture, one sector of a folder's blocks
        failed(lba(archive.file("2025-02 Paper mill/QM0008.JPG").entryByte()) + 1, 1);
        failed(lba(archive.file("2025-04 Orchard bloom/QM0013.JPG").runs().get(0).firstByte()) + 31, 3);
        failed(lba(archive.file("Thumbnails").runs().get(0).firstByte()) + 17, 1);
        failed(lba(archive.file("Sound/market ambience.wav").runs().get(0).firstByte()) + 200, 64);
        failed(lba(card.file("PICTURES/100RIDGE/FRM_0207.JPG").runs().get(0).firstByte()), 8);
        long skipped = lba(card.file("PICTURES/100RIDGE/FRM_0211.JPG").runs().get(0).firstByte()) + 10;
        missing.add(new Range(skipped, 128, "skipped"));
        long unread = lba(card.firstByte() + card.bytes() / 2);
        missing.add(new Range(unread, sectors - unread, "unread"));
        missing.sort(Comparator.comparingLong(Range::first));
    }

    private static long lba(long firstByte) {
        return firstByte / DemoDisk.SECTOR;
    }

    private void failed(long first, long count) {
        missing.add(new Range(first, count, "failed"));
    }

    /** Puts the filler into every sector that was not read, but for the end, which stays a hole. */
    void fill(Medium disk) throws IOException {
        byte[] filler = FILLER.repeat(DemoDisk.SECTOR / FILLER.length()).getBytes(StandardCharsets.US_ASCII);
        byte[] zero = new byte[DemoDisk.SECTOR];
        for (Range range : missing) {
            byte[] sector = range.state().equals("unread") ? zero : filler;
            for (long lba = range.first(); lba < range.end(); lba++) {
                disk.write(lba * DemoDisk.SECTOR, sector);
            }
        }
    }

    /** Writes the read map: sorted, complete, without overlap. */
    void write(Path file) throws IOException {
        StringBuilder csv = new StringBuilder("first_lba,sectors,state\n");
        long next = 0;
        for (Range range : missing) {
            if (range.first() > next) {
                line(csv, next, range.first() - next, "read");
            }
            line(csv, range.first(), range.count(), range.state());
            next = range.end();
        }
        if (next < sectors) {
            line(csv, next, sectors - next, "read");
        }
        Files.writeString(file, csv);
    }

    private static void line(StringBuilder csv, long first, long count, String state) {
        csv.append(first).append(',').append(count).append(',').append(state).append('\n');
    }
}
