package sectorglass.ntfs;

import java.util.Optional;

import sectorglass.disk.SelfCheck;
import sectorglass.disk.Structure;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorStates;

/**
 * Whether a file record, index block or log restart page is whole: its signature, its fix-ups, and of a record the chain of attributes. Sources: Linux
 * kernel fs/ntfs3/ntfs.h (NTFS_RECORD_HEADER); NTFS-3G libntfs-3g/mst.c.
 */
final class BlockCheck implements SelfCheck {

    @Override
    public Optional<Boolean> holds(Structure structure, SectorImage image) {
        String signature = switch (structure.format() == null ? "" : structure.format()) {
            case NtfsStructures.RECORD -> "FILE";
            case NtfsStructures.INDEX -> "INDX";
            case NtfsStructures.RESTART -> "RSTR";
            default -> null;
        };
        int length = (int) Math.min(FixedBlock.MAX_BYTES, structure.range().length());
        if (signature == null || length < FixedBlock.STRIDE || length % FixedBlock.STRIDE != 0) {
            return Optional.empty();
        }
        byte[] bytes = new byte[length];
        SectorStates states = image.read(structure.range().start(), bytes, 0, length);
        if (!states.allRead()) {
            return Optional.empty();
        }
        for (int i = 0; i < signature.length(); i++) {
            if (bytes[i] != signature.charAt(i)) {
                return Optional.of(false);
            }
        }
        if (!signature.equals("FILE")) {
            FixedBlock block = new FixedBlock();
            block.load(bytes, 0, length, states, structure.range().start());
            return Optional.of(block.fix() == FixedBlock.Fix.GOOD);
        }
        RecordView view = new RecordView();
        view.load(bytes, 0, length, states, structure.range().start());
        if (view.fix() != FixedBlock.Fix.GOOD || !view.usable()) {
            return Optional.of(false);
        }
        view.rewind();
        while (view.nextAttribute()) {
            continue; // only where it ends counts
        }
        return Optional.of(view.end() == RecordView.End.MARK);
    }
}
