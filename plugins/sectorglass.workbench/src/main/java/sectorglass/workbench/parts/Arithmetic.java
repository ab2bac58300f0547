package sectorglass.workbench.parts;

import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Volume;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;

/** How the place of a pointer is computed, as one would write it down. */
final class Arithmetic {
    /** Numbers that are tried as the first valid one of a unit: clusters of FAT begin at 2. */
    private static final int TRIED = 4;

    private Arithmetic() {
    }

    /** The sum, or null where the pointer leads nowhere or is a plain image byte. */
    static String of(Desk desk, FieldNode.Link link, long from, long target) {
        int sectorSize = desk.open().image().sectorSize();
        if (link.kind().equals("lba")) {
            return Texts.of("arithmetic.lba", Numbers.grouped(link.target()), Numbers.grouped(sectorSize), Numbers.grouped(target));
        }
        Optional<Volume> volume = desk.open().disk().volumeAt(from);
        if (volume.isEmpty()) {
            return null;
        }
        for (int first = 0; first < TRIED; first++) {
            OptionalLong base = volume.get().address(link.kind(), first);
            OptionalLong next = volume.get().address(link.kind(), first + 1L);
            if (base.isEmpty() || next.isEmpty()) {
                continue;
            }
            long step = next.getAsLong() - base.getAsLong();
            if (step <= 0 || (target - base.getAsLong()) % step != 0 || (target - base.getAsLong()) / step != link.target() - first) {
                return link.kind().equals("record") ? Texts.of("arithmetic.pieces", Numbers.grouped(target)) : null;
            }
            String number = first == 0 ? Numbers.grouped(link.target()) : "(" + Numbers.grouped(link.target()) + " \u2212 " + first + ")";
            return Texts.of("arithmetic.sum", Numbers.grouped(base.getAsLong()), Texts.of("unit." + link.kind()), first, number,
                    Numbers.grouped(step), Numbers.grouped(target));
        }
        return null;
    }
}
