package sectorglass.disk;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.AssembledImage;
import sectorglass.image.AssembledImage.Source;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;

/**
 * Says where the bytes of a volume that a set puts together stand on the surveyed image. What stands on another disk keeps its place
 * in the volume.
 *
 * @param volume the volume's bytes
 * @param disk the surveyed image
 */
record SetPlaces(AssembledImage volume, SectorImage disk) {

    /** Adds verdicts about the volume as verdicts about the disk. */
    void move(Checks from, Checks to) {
        to.addMoved(from, this::range, this::sectors);
    }

    /** The bytes on the disk, cut at the end of the piece that holds the first of them. */
    ByteRange range(ByteRange there) {
        if (there.start() >= volume.bytes()) {
            return there;
        }
        AssembledImage.Piece piece = volume.piece(there.start());
        for (Source source : piece.sources()) {
            long at = onDisk(source, there.start() - piece.start());
            if (at >= 0) {
                return new ByteRange(at, Math.min(there.length(), piece.end() - there.start()));
            }
        }
        return there;
    }

    /** The sectors of the disk that hold those of the volume; what stands on other disks is left out. */
    SectorRanges sectors(SectorRanges there) {
        long size = volume.sectorSize();
        List<SectorRange> found = new ArrayList<>();
        for (SectorRange run : there) {
            for (long at = run.first() * size; at < Math.min(run.end() * size, volume.bytes());) {
                AssembledImage.Piece piece = volume.piece(at);
                long end = Math.min(piece.end(), run.end() * size);
                for (Source source : piece.sources()) {
                    long here = onDisk(source, at - piece.start());
                    if (here >= 0) {
                        found.add(new ByteRange(here, end - at).sectors(disk.sectorSize()));
                        break;
                    }
                }
                at = end;
            }
        }
        return SectorRanges.of(found);
    }

    private long onDisk(Source source, long at) {
        if (source.image() == disk) {
            return source.firstByte() + at;
        }
        if (source.image() instanceof AssembledImage inner && source.firstByte() + at < inner.bytes()) {
            AssembledImage.Piece piece = inner.piece(source.firstByte() + at);
            for (Source below : piece.sources()) {
                long found = new SetPlaces(inner, disk).onDisk(below, source.firstByte() + at - piece.start());
                if (found >= 0) {
                    return found;
                }
            }
        }
        return -1;
    }
}
