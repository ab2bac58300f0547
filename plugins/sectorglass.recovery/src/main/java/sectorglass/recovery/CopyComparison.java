package sectorglass.recovery;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/**
 * Where copies of one disk agree and where they do not, sector by sector. Only sectors that were read are compared; a sector that one
 * copy read and another did not is no difference.
 *
 * @param copies number of copies compared
 * @param sectors sectors compared: those of the longest copy
 * @param agree read in at least two copies, and all that read it hold the same bytes
 * @param differ read in at least two copies that do not hold the same bytes
 * @param onlyIn per copy: read there and in no other
 * @param nowhere read in no copy
 */
public record CopyComparison(int copies, long sectors, SectorRanges agree, SectorRanges differ, List<SectorRanges> onlyIn,
        SectorRanges nowhere) {
    private static final int CHUNK = 1 << 20;

    /** Sectors that some copy read. */
    public SectorRanges read() {
        return SectorRanges.of(0, sectors).minus(nowhere);
    }

    /**
     * Compares copies; memory does not depend on their size, only on the number of runs found.
     *
     * @param images at least two, of one sector size
     * @throws IllegalArgumentException for one copy, or copies of different sector sizes
     */
    public static CopyComparison of(List<? extends SectorImage> images, Progress progress) {
        return new Walk(images, progress).run();
    }

    /** One pass over all copies at once. */
    private static final class Walk {
        private final List<? extends SectorImage> images;
        private final Progress progress;
        private final int sectorSize;
        private final long bytes;
        private final SectorRanges.Builder agree = new SectorRanges.Builder();
        private final SectorRanges.Builder differ = new SectorRanges.Builder();
        private final SectorRanges.Builder nowhere = new SectorRanges.Builder();
        private final List<SectorRanges.Builder> onlyIn = new ArrayList<>();
        private final byte[][] buffers;
        private final SectorStates[] states;

        Walk(List<? extends SectorImage> images, Progress progress) {
            if (images.size() < 2) {
                throw new IllegalArgumentException("copies=" + images.size());
            }
            this.images = images;
            this.progress = progress;
            sectorSize = images.get(0).sectorSize();
            long longest = 0;
            for (SectorImage image : images) {
                if (image.sectorSize() != sectorSize) {
                    throw new IllegalArgumentException("sector sizes " + sectorSize + " and " + image.sectorSize());
                }
                longest = Math.max(longest, image.bytes());
                onlyIn.add(new SectorRanges.Builder());
            }
            bytes = longest;
            buffers = new byte[images.size()][(int) Math.min(CHUNK, Math.max(sectorSize, longest))];
            states = new SectorStates[images.size()];
        }

        CopyComparison run() {
            for (long at = 0; at < bytes; at += CHUNK) {
                progress.checkCancelled();
                progress.at("comparing", at, bytes);
                int length = (int) Math.min(CHUNK, bytes - at);
                for (int i = 0; i < buffers.length; i++) {
                    states[i] = images.get(i).read(at, buffers[i], 0, length);
                }
                if (!sameThroughout(at, length)) {
                    bySector(at, length);
                }
            }
            return new CopyComparison(images.size(), (bytes + sectorSize - 1) / sectorSize, agree.build(), differ.build(),
                    onlyIn.stream().map(SectorRanges.Builder::build).toList(), nowhere.build());
        }

        private boolean sameThroughout(long at, int length) {
            for (int i = 0; i < buffers.length; i++) {
                if (!states[i].allRead() || i > 0 && Arrays.mismatch(buffers[0], 0, length, buffers[i], 0, length) >= 0) {
                    return false;
                }
            }
            agree.add(at / sectorSize, (length + sectorSize - 1) / sectorSize);
            return true;
        }

        private void bySector(long at, int length) {
            for (int from = 0; from < length; from += sectorSize) {
                int count = Math.min(sectorSize, length - from);
                sector((at + from) / sectorSize, at + from, from, count);
            }
        }

        private void sector(long lba, long at, int from, int count) {
            int first = -1;
            int readers = 0;
            boolean same = true;
            for (int i = 0; i < buffers.length; i++) {
                if (states[i].isRead(at, count)) {
                    readers++;
                    if (first < 0) {
                        first = i;
                    } else {
                        same &= Arrays.equals(buffers[first], from, from + count, buffers[i], from, from + count);
                    }
                }
            }
            SectorRanges.Builder to = readers == 0 ? nowhere : readers == 1 ? onlyIn.get(first) : same ? agree : differ;
            to.add(lba, 1);
        }
    }

    /** The compared sectors as one run. */
    public SectorRange all() {
        return new SectorRange(0, sectors);
    }
}
