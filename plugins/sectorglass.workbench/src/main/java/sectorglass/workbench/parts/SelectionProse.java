package sectorglass.workbench.parts;

import sectorglass.image.ByteRange;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Checksums;

/** The selected bytes in words: how many, and their checksums. */
final class SelectionProse {
    /** Bytes whose checksums are computed as soon as they are selected. */
    static final long AT_ONCE = 1L << 30;

    private SelectionProse() {
    }

    /** @param sums null while they are computed */
    static Prose of(ByteRange selected, Checksums sums) {
        Prose prose = new Prose();
        prose.title(Texts.of("selection.title", Numbers.grouped(selected.length()), Numbers.hex(selected.length(), 1)));
        prose.line(Texts.of("selection.from"), Numbers.grouped(selected.start()) + " = 0x" + Numbers.hex(selected.start(), 1));
        prose.line(Texts.of("selection.to"), Numbers.grouped(selected.end() - 1) + " = 0x" + Numbers.hex(selected.end() - 1, 1));
        if (sums == null) {
            prose.paragraph(Texts.of(selected.length() > AT_ONCE ? "selection.long" : "selection.computing"));
        } else if (sums.unreadSectors() > 0) {
            prose.paragraph(Texts.of("selection.unread", Numbers.grouped(sums.unreadSectors())));
        } else {
            prose.bytes("CRC-32", sums.crc32());
            prose.bytes("SHA-256", sums.sha256());
        }
        return prose.gap();
    }
}
