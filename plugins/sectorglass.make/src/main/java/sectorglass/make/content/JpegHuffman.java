package sectorglass.make.content;

import java.util.stream.IntStream;

/** The typical Huffman tables for luminance, ITU-T T.81, annex K, tables K.3 and K.5. */
final class JpegHuffman {
    static final JpegHuffman DC = new JpegHuffman(new int[] {0, 1, 5, 1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0},
            IntStream.range(0, 12).toArray());
    static final JpegHuffman AC = new JpegHuffman(new int[] {0, 2, 1, 3, 3, 2, 4, 3, 5, 5, 4, 4, 0, 0, 1, 0x7D}, acValues());

    private final int[] counts;
    private final int[] values;
    private final int[] codes = new int[256];
    private final int[] lengths = new int[256];

    private JpegHuffman(int[] counts, int[] values) {
        this.counts = counts;
        this.values = values;
        int code = 0;
        int at = 0;
        for (int length = 1; length <= 16; length++, code <<= 1) {
            for (int i = 0; i < counts[length - 1]; i++) {
                codes[values[at]] = code++;
                lengths[values[at++]] = length;
            }
        }
    }

    private static int[] acValues() {
        int[] first = {0x01, 0x02, 0x03, 0x00, 0x04, 0x11, 0x05, 0x12, 0x21, 0x31, 0x41, 0x06, 0x13, 0x51, 0x61, 0x07, 0x22, 0x71,
            0x14, 0x32, 0x81, 0x91, 0xA1, 0x08, 0x23, 0x42, 0xB1, 0xC1, 0x15, 0x52, 0xD1, 0xF0, 0x24, 0x33, 0x62, 0x72, 0x82, 0x09,
            0x0A, 0x16, 0x17, 0x18, 0x19, 0x1A};
        int[][] rest = {{0x25, 0x2A}, {0x34, 0x3A}, {0x43, 0x4A}, {0x53, 0x5A}, {0x63, 0x6A}, {0x73, 0x7A}, {0x83, 0x8A},
            {0x92, 0x9A}, {0xA2, 0xAA}, {0xB2, 0xBA}, {0xC2, 0xCA}, {0xD2, 0xDA}, {0xE1, 0xEA}, {0xF1, 0xFA}};
        IntStream all = IntStream.of(first);
        for (int[] run : rest) {
            all = IntStream.concat(all, IntStream.rangeClosed(run[0], run[1]));
        }
        return all.toArray();
    }

    int code(int value) {
        return codes[value];
    }

    int length(int value) {
        return lengths[value];
    }

    /** The table as a segment holds it. */
    int[] segment(int classAndNumber) {
        return IntStream.concat(IntStream.of(classAndNumber), IntStream.concat(IntStream.of(counts), IntStream.of(values))).toArray();
    }
}
