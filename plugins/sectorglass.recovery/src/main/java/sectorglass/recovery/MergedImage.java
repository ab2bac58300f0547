package sectorglass.recovery;

import java.util.Arrays;
import java.util.List;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** Copies of one disk seen as one image, each sector from the copy that a plan names. Closes none of the copies. */
public final class MergedImage implements SectorImage {
    private final List<? extends SectorImage> copies;
    private final MergePlan plan;
    private final long[] firsts;
    private final long bytes;

    /** @param copies in the order the plan counts them */
    public MergedImage(List<? extends SectorImage> copies, MergePlan plan) {
        this.copies = copies;
        this.plan = plan;
        this.firsts = plan.choices().stream().mapToLong(c -> c.range().first()).toArray();
        this.bytes = copies.stream().mapToLong(SectorImage::bytes).max().orElse(0);
    }

    @Override
    public String name() {
        return "merged from " + String.join(", ", copies.stream().map(SectorImage::name).toList());
    }

    @Override
    public int sectorSize() {
        return copies.get(0).sectorSize();
    }

    @Override
    public long bytes() {
        return bytes;
    }

    /** The choice that holds the sector, or null. */
    public MergePlan.Choice choice(long lba) {
        int at = Arrays.binarySearch(firsts, lba);
        int index = at >= 0 ? at : -at - 2;
        return index >= 0 && plan.choices().get(index).range().contains(lba) ? plan.choices().get(index) : null;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        int size = sectorSize();
        long firstLba = firstByte / size;
        int count = length == 0 ? 0 : (int) ((firstByte + length - 1) / size - firstLba + 1);
        ReadState[] states = new ReadState[count];
        Arrays.fill(states, ReadState.UNREAD);
        Arrays.fill(into, offset, offset + length, (byte) 0);
        long end = firstByte + length;
        for (long at = firstByte; at < end;) {
            MergePlan.Choice choice = choice(at / size);
            long runEnd = choice == null ? (at / size + 1) * size : Math.min(choice.range().end() * size, end);
            int part = (int) (Math.min(runEnd, end) - at);
            if (choice != null && choice.copy() >= 0) {
                SectorStates got = copies.get(choice.copy()).read(at, into, (int) (offset + at - firstByte), part);
                for (long lba = at / size; lba <= (at + part - 1) / size; lba++) {
                    states[(int) (lba - firstLba)] = got.at(lba);
                }
            } else {
                for (long lba = at / size; lba <= (at + part - 1) / size; lba++) {
                    states[(int) (lba - firstLba)] = state(lba);
                }
            }
            at += part;
        }
        return SectorStates.of(size, firstLba, states);
    }

    @Override
    public ReadState state(long lba) {
        MergePlan.Choice choice = choice(lba);
        if (choice != null && choice.copy() >= 0) {
            return copies.get(choice.copy()).state(lba);
        }
        // not read anywhere: the most that is known of it
        for (ReadState state : new ReadState[] {ReadState.FAILED, ReadState.SKIPPED}) {
            if (copies.stream().anyMatch(copy -> copy.state(lba) == state)) {
                return state;
            }
        }
        return ReadState.UNREAD;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges read = SectorRanges.EMPTY;
        SectorRanges failed = SectorRanges.EMPTY;
        SectorRanges skipped = SectorRanges.EMPTY;
        for (SectorImage copy : copies) {
            read = read.union(copy.inState(ReadState.READ, within));
            failed = failed.union(copy.inState(ReadState.FAILED, within));
            skipped = skipped.union(copy.inState(ReadState.SKIPPED, within));
        }
        return switch (state) {
            case READ -> read;
            case FAILED -> failed.minus(read);
            case SKIPPED -> skipped.minus(read).minus(failed);
            case UNREAD -> SectorRanges.of(within).minus(read).minus(failed).minus(skipped);
        };
    }
}
