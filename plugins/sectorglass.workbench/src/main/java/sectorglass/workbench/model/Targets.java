package sectorglass.workbench.model;

import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Volume;

/** Finds the byte that a pointer means. */
final class Targets {

    private Targets() {
    }

    /** Image byte that the pointer of a field means; empty where it does not lead into the image. */
    static OptionalLong of(OpenDisk open, FieldNode node) {
        FieldNode.Link link = node.link();
        int sectorSize = open.image().sectorSize();
        OptionalLong found = OptionalLong.empty();
        if (link.kind().equals("lba")) {
            found = link.target() < 0 || link.target() > Long.MAX_VALUE / sectorSize ? OptionalLong.empty()
                    : OptionalLong.of(link.target() * sectorSize);
        } else {
            Optional<Volume> volume = open.disk().volumeAt(node.firstByte());
            if (volume.isPresent()) {
                found = volume.get().address(link.kind(), link.target());
            } else if (link.kind().equals("byte")) {
                found = OptionalLong.of(link.target());
            }
        }
        return found.isPresent() && found.getAsLong() >= 0 && found.getAsLong() < open.image().bytes() ? found : OptionalLong.empty();
    }
}
