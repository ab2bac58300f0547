package sectorglass.image;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

import sectorglass.image.store.StoredBytes;

/** An image opened by {@link Images}: files under it, what was found out about them, and the states of its sectors. */
public final class OpenImage implements SectorImage {
    private static final byte UNREAD = (byte) ReadState.UNREAD.ordinal();

    private final Path path;
    private final List<ImagePart> parts;
    private final StoredBytes stored;
    private final Troubles troubles;
    private final ReadMap map;
    private final SectorSizeChoice size;
    private final List<String> remarks;

    OpenImage(Path path, List<ImagePart> parts, StoredBytes stored, Troubles troubles, ReadMap map, SectorSizeChoice size,
            List<String> remarks) {
        this.path = path;
        this.parts = List.copyOf(parts);
        this.stored = stored;
        this.troubles = troubles;
        this.map = map;
        this.size = size;
        this.remarks = List.copyOf(remarks);
    }

    /** The same files with another sector size, map and remarks. */
    OpenImage with(ReadMap changedMap, SectorSizeChoice changedSize, List<String> changedRemarks) {
        return new OpenImage(path, parts, stored, troubles, changedMap, changedSize, changedRemarks);
    }

    /** The path that was asked for. */
    public Path path() {
        return path;
    }

    /** The files in order; a missing one is told as such. */
    public List<ImagePart> parts() {
        return parts;
    }

    /** Sentences about the image that a person should read before believing it. */
    public List<String> remarks() {
        return remarks;
    }

    /** Sentences about failures of the files since they were opened, the first ones; empty where all went well. */
    public List<String> troubles() {
        return troubles.sentences();
    }

    /** Sector size, reasons and what speaks against. */
    public SectorSizeChoice sectorSizeChoice() {
        return size;
    }

    /** Why the sector size was taken, in words. */
    public String sectorSizeReason() {
        return size.reason();
    }

    /** The read states known from outside the files, or null where every byte there is counts as read. */
    public ReadMap readMap() {
        return map;
    }

    @Override
    public String name() {
        return path.getFileName() == null ? path.toString() : path.getFileName().toString();
    }

    @Override
    public int sectorSize() {
        return size.sectorSize();
    }

    @Override
    public long bytes() {
        return stored.length();
    }

    /** {@inheritDoc} The bytes of a cut-off last sector are read as long as no byte beyond them is asked for. */
    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        Objects.checkFromIndexSize(offset, length, into.length);
        int sectorSize = sectorSize();
        SectorRange run = new ByteRange(firstByte, length).sectors(sectorSize);
        byte[] states = new byte[(int) run.count()];
        boolean clean = map == null || map.fill(run.first(), states);
        long bytes = bytes();
        int there = (int) Math.max(0, Math.min(length, bytes - firstByte));
        if (there < length) {
            clean = false;
            Arrays.fill(into, offset + there, offset + length, (byte) 0);
            int from = (int) ((firstByte + there) / sectorSize - run.first());
            Arrays.fill(states, Math.max(0, from), states.length, UNREAD);
        }
        boolean[] faultless = {true};
        if (there > 0) {
            stored.read(firstByte, into, offset, there, (from, count, state) -> {
                faultless[0] = false;
                long last = (firstByte + from + count - 1) / sectorSize;
                for (long lba = (firstByte + from) / sectorSize; lba <= last; lba++) {
                    int index = (int) (lba - run.first());
                    states[index] = states[index] == 0 ? (byte) state.ordinal() : states[index];
                }
            });
        }
        if (!clean || !faultless[0]) {
            wipe(run, states, firstByte, into, offset, length);
        }
        return SectorStates.ofOrdinals(sectorSize, run.first(), states);
    }

    /** Sets the bytes of sectors that were not read to zero, so that nobody takes filler for data. */
    private void wipe(SectorRange run, byte[] states, long firstByte, byte[] into, int offset, int length) {
        for (int i = 0; i < states.length; i++) {
            if (states[i] != 0) {
                long from = Math.max(0, (run.first() + i) * sectorSize() - firstByte);
                long to = Math.min(length, (run.first() + i + 1) * sectorSize() - firstByte);
                Arrays.fill(into, (int) (offset + from), (int) (offset + to), (byte) 0);
            }
        }
    }

    @Override
    public ReadState state(long lba) {
        if (lba >= sectors()) {
            return ReadState.UNREAD;
        }
        return map == null ? ReadState.READ : map.state(lba);
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRange inside = within.first() >= sectors() ? new SectorRange(sectors(), 0)
                : new SectorRange(within.first(), Math.min(within.end(), sectors()) - within.first());
        SectorRanges found = map != null ? map.inState(state, inside)
                : state == ReadState.READ ? SectorRanges.of(inside) : SectorRanges.EMPTY;
        if (state == ReadState.UNREAD && within.end() > sectors()) {
            long first = Math.max(within.first(), sectors());
            found = found.union(SectorRanges.of(first, within.end() - first));
        }
        return found;
    }

    @Override
    public void close() {
        stored.close();
    }

    /** The first failures of files, once each. */
    static final class Troubles {
        private static final int KEPT = 20;
        private final List<String> sentences = new ArrayList<>();

        synchronized void add(String sentence) {
            if (sentences.size() < KEPT && !sentences.contains(sentence)) {
                sentences.add(sentence);
            }
        }

        synchronized List<String> sentences() {
            return List.copyOf(sentences);
        }
    }
}
