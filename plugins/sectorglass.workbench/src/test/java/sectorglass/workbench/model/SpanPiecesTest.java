package sectorglass.workbench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;

import org.junit.jupiter.api.Test;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.decode.SpecCheck;
import sectorglass.decode.SpecException;
import sectorglass.image.Window;

/**
 * Which digits a field of bits takes. Order of bits: Kaitai Struct User Guide, section 4.14. Entries of a FAT12 table: Microsoft FAT
 * specification (2005-08-30), "FAT Data Structure": two in three bytes, an even one in the low 12 bits.
 */
class SpanPiecesTest {
    private static List<List<Span.Piece>> pieces(String order, String fields, int bytes) throws SpecException {
        String spec = "meta: {id: t, bit-endian: " + order + "}\nseq:\n" + fields;
        FieldNode root = Decoder.decode(SpecCheck.load("t.ksy", spec, null), Window.ofRead(new byte[bytes], 0, 512), DecodeOptions.DEFAULT);
        return FieldWalk.values(root).stream()
                .map(n -> new Span(n.firstByte(), n.length(), n.bit(), n.bits(), n, null, null, false).pieces()).toList();
    }

    @Test
    void bitsFromTheMostSignificantOneRunFromLeftToRight() throws SpecException {
        assertEquals(List.of(List.of(new Span.Piece(0, 0.125)), List.of(new Span.Piece(0.125, 2))),
                pieces("be", "  - {id: a, type: b1}\n  - {id: b, type: b15}\n", 2));
    }

    @Test
    void bitsFromTheLeastSignificantOneBeginAtTheRight() throws SpecException {
        assertEquals(List.of(List.of(new Span.Piece(0.875, 1)), List.of(new Span.Piece(0.25, 0.875)), List.of(new Span.Piece(0, 0.25))),
                pieces("le", "  - {id: a, type: b1}\n  - {id: b, type: b5}\n  - {id: c, type: b2}\n", 1));
    }

    @Test
    void entriesOfTwelveBitsShareTheDigitsOfTheirMiddleByte() throws SpecException {
        assertEquals(List.of(List.of(new Span.Piece(0, 1), new Span.Piece(1.5, 2)), List.of(new Span.Piece(1, 1.5), new Span.Piece(2, 3))),
                pieces("le", "  - {id: even, type: b12}\n  - {id: odd, type: b12}\n", 3));
    }

    @Test
    void wholeBytesAreOneStretch() throws SpecException {
        assertEquals(List.of(List.of(new Span.Piece(0, 4))), pieces("le", "  - {id: a, type: u4le}\n", 4));
    }
}
