package sectorglass.image;

import java.util.ArrayList;
import java.util.List;

/**
 * An image with bytes put over it; the image below is never changed. Immutable: {@link #with} gives another one. A sector that
 * patches cover whole counts as read; others keep their state.
 */
public final class Overlay implements SectorImage {
    private final SectorImage base;
    private final String name;
    private final List<Patch> patches;
    private final SectorRanges covered;

    private Overlay(SectorImage base, String name, List<Patch> patches) {
        this.base = base;
        this.name = name;
        this.patches = List.copyOf(patches);
        this.covered = Patch.wholeSectors(patches, base.sectorSize());
    }

    /** An overlay without patches yet. */
    public static Overlay over(SectorImage base, String name) {
        return new Overlay(base, name, List.of());
    }

    /** This overlay with one more patch on top. */
    public Overlay with(Patch patch) {
        List<Patch> more = new ArrayList<>(patches);
        more.add(patch);
        return new Overlay(base, name, more);
    }

    /** This overlay with more patches on top, the last one topmost. */
    public Overlay with(List<Patch> added) {
        List<Patch> more = new ArrayList<>(patches);
        more.addAll(added);
        return new Overlay(base, name, more);
    }

    /** The image below. */
    public SectorImage base() {
        return base;
    }

    /** The patches in the order they were put on. */
    public List<Patch> patches() {
        return patches;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public int sectorSize() {
        return base.sectorSize();
    }

    @Override
    public long bytes() {
        return base.bytes();
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        SectorStates states = base.read(firstByte, into, offset, length);
        ByteRange asked = new ByteRange(firstByte, length);
        for (Patch patch : patches) {
            if (patch.range().overlaps(asked)) {
                long first = Math.max(firstByte, patch.start());
                long end = Math.min(asked.end(), patch.range().end());
                System.arraycopy(patch.bytes(), (int) (first - patch.start()), into, (int) (offset + first - firstByte),
                        (int) (end - first));
            }
        }
        return covered.isEmpty() ? states : states.with(covered, ReadState.READ);
    }

    @Override
    public Window window(long firstByte, int length) {
        ByteRange asked = new ByteRange(firstByte, length);
        return base.window(firstByte, length).with(patches.stream().filter(p -> p.range().overlaps(asked)).toList(), covered);
    }

    @Override
    public ReadState state(long lba) {
        return covered.contains(lba) ? ReadState.READ : base.state(lba);
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges below = base.inState(state, within);
        return state == ReadState.READ ? below.union(covered.intersect(within)) : below.minus(covered);
    }
}
