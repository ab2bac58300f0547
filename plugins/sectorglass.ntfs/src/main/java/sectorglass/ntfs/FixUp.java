package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.Patch;
import sectorglass.image.Provenance;
import sectorglass.image.Window;

/**
 * Undoes an update sequence over a window: the real bytes become patches, the stored marks stay visible below. A stride whose mark is
 * wrong keeps its stored bytes. For showing a block; bulk readers use {@link FixedBlock}.
 */
final class FixUp {
    private static final Provenance WHY = new Provenance(Provenance.Kind.FIX_UP, "update sequence");

    private FixUp() {
    }

    static Window undo(Window stored) {
        int count = 1 + stored.length() / FixedBlock.STRIDE;
        if (stored.length() < FixedBlock.STRIDE || !stored.isRead(0, FixedBlock.STRIDE)) {
            return stored;
        }
        int from = stored.u16le(FixedBlock.FIXUP_OFFSET);
        if ((from & 1) != 0 || from < 0x18 || stored.u16le(FixedBlock.FIXUP_COUNT) != count || from + 2 * count > FixedBlock.STRIDE - 2) {
            return stored;
        }
        List<Patch> patches = new ArrayList<>();
        int mark = stored.u16le(from);
        for (int i = 1; i < count; i++) {
            int at = FixedBlock.STRIDE * i - 2;
            if (stored.isRead(at, 2) && stored.u16le(at) == mark) {
                patches.add(new Patch(stored.address(at), stored.bytes(from + 2 * i, 2), WHY));
            }
        }
        return stored.with(patches);
    }
}
