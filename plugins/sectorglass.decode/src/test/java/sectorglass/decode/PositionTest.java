package sectorglass.decode;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sectorglass.decode.Specs.at;
import static sectorglass.decode.Specs.decode;

import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;

import sectorglass.image.Window;

/** Positions are exact: bytes, bits, substructures, instances, pieces, addresses beyond 2^32. */
class PositionTest {

    private static void bits(FieldNode node, long firstByte, long length, int bit, int bits) {
        assertEquals(firstByte, node.firstByte(), node.path());
        assertEquals(length, node.length(), node.path());
        assertEquals(bit, node.bit(), node.path());
        assertEquals(bits, node.bits(), node.path());
    }

    /** Big-endian bit fields fill from the most significant bit (Kaitai Struct User Guide, section 4.14.1). */
    @Test
    void bitFieldsFromTheTop() {
        FieldNode root = decode("""
                meta: {id: t}
                seq:
                  - {id: a, type: b1}
                  - {id: b, type: b3}
                  - {id: c, type: b12}
                  - {id: d, type: u1}
                """, "A5 5A 77");
        bits(at(root, "a"), 1024, 1, 0, 1);
        bits(at(root, "b"), 1024, 1, 1, 3);
        bits(at(root, "c"), 1024, 2, 4, 12);
        assertEquals(true, at(root, "a").raw());
        assertEquals(2L, at(root, "b").raw());
        assertEquals(0x55AL, at(root, "c").raw());
        assertFalse(at(root, "b").bitsFromLeast());
        assertEquals(1026, at(root, "d").firstByte());
    }

    /** Little-endian bit fields fill from the least significant bit (section 4.14.2). */
    @Test
    void bitFieldsFromTheBottom() {
        FieldNode root = decode("""
                meta: {id: t, bit-endian: le}
                seq:
                  - {id: low, type: b6}
                  - {id: high, type: b10}
                """, "C1 FF");
        bits(at(root, "low"), 1024, 1, 0, 6);
        bits(at(root, "high"), 1024, 2, 6, 10);
        assertEquals(1L, at(root, "low").raw());
        assertEquals(0x3FFL, at(root, "high").raw());
        assertTrue(at(root, "low").bitsFromLeast());
        assertFalse(root.bitsFromLeast());
    }

    @Test
    void substructuresAndInstancesKeepTheirAddress() {
        FieldNode root = decode("""
                meta: {id: t, endian: be}
                seq:
                  - {id: skip, size: 3}
                  - {id: box, type: box, size: 5}
                types:
                  box:
                    seq:
                      - {id: a, type: u1}
                    instances:
                      tail: {pos: 3, type: u2}
                      sum: {value: a + tail}
                """, "000000 01 0000 0203");
        assertEquals(1027, at(root, "box").firstByte());
        assertEquals(1030, at(root, "box.tail").firstByte());
        assertEquals(6, at(root, "box.tail").offset());
        assertEquals(0x203L, at(root, "box.tail").raw());
        assertEquals(0x204L, at(root, "box.sum").raw());
        assertEquals(1027, at(root, "box.sum").firstByte());
        assertEquals(0, at(root, "box.sum").length());
        assertTrue(at(root, "box.sum").computed());
    }

    @Test
    void addressesBeyondFourGibibytes() {
        long start = 20_000_000_000_000L;
        Format format = Specs.load("{meta: {id: t}, seq: [{id: a, type: u1}, {id: b, type: u1}]}");
        FieldNode root = Decoder.decode(format, Window.ofRead(new byte[2], start, 512), DecodeOptions.DEFAULT);
        assertEquals(start + 1, at(root, "b").firstByte());
    }

    @Test
    void joinedWindowsKeepTheirAddresses() {
        Window joined = Window.joined(List.of(Window.ofRead(new byte[512], 512, 512), Window.ofRead(new byte[512], 8192, 512)));
        Format format = Specs.load("{meta: {id: t}, seq: [{id: a, size: 512}, {id: b, type: u1}]}");
        FieldNode root = Decoder.decode(format, joined, DecodeOptions.DEFAULT);
        assertEquals(512, at(root, "a").firstByte());
        assertEquals(8192, at(root, "b").firstByte());
    }

    @Test
    void processedBytesStandForTheirWholeField() {
        FieldNode root = decode("""
                meta: {id: t}
                seq:
                  - {id: skip, type: u1}
                  - {id: box, type: box, size: 2, process: xor(0xff)}
                types:
                  box:
                    seq:
                      - {id: a, type: u1}
                      - {id: b, type: u1}
                """, "00 fe fd");
        assertEquals(2L, at(root, "box.b").raw());
        assertEquals(1025, at(root, "box.b").firstByte());
        assertEquals(2, at(root, "box.b").length());
    }

    @Test
    void paddingAndTerminatorBelongToTheField() {
        FieldNode root = decode("""
                meta: {id: t}
                seq:
                  - {id: a, size: 4, pad-right: 0x20}
                  - {id: b, terminator: 0x7c}
                  - {id: c, type: u1}
                """, "41422020 4344 7c 09");
        assertArrayEquals(new byte[] {0x41, 0x42}, (byte[]) at(root, "a").raw());
        assertEquals(4, at(root, "a").length());
        assertArrayEquals(new byte[] {0x43, 0x44}, (byte[]) at(root, "b").raw());
        assertEquals(3, at(root, "b").length());
        assertEquals(9L, at(root, "c").raw());
    }

    @Test
    void parametersComeFromTheCaller() {
        Format format = Specs.load("""
                meta: {id: t}
                params: [{id: n, type: u4}]
                seq: [{id: a, size: n}]
                """);
        assertEquals(List.of("n"), format.params());
        Window window = Window.ofRead(new byte[8], 0, 512);
        assertEquals(5, at(Decoder.decode(format, window, Specs.params(Map.of("n", 5))), "a").length());
        assertEquals(FieldNode.State.VIOLATED, at(Decoder.decode(format, window, DecodeOptions.DEFAULT), "a").state());
    }
}
