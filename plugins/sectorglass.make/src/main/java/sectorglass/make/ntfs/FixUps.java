package sectorglass.make.ntfs;

import sectorglass.make.write.Block;

/** The update sequence: the last two bytes of every 512 are kept in an array, and the same number stands in their place. */
final class FixUps {
    private static final int STRIDE = 512;

    private FixUps() {
    }

    static void apply(Block block, int arrayOffset, int number) {
        int strides = block.bytes().length / STRIDE;
        block.u16(4, arrayOffset).u16(6, strides + 1).u16(arrayOffset, number);
        for (int i = 1; i <= strides; i++) {
            int at = STRIDE * i - 2;
            block.u16(arrayOffset + 2 * i, block.u16(at)).u16(at, number);
        }
    }

    /** Offset behind the array, rounded up to eight. */
    static int end(int arrayOffset, int bytes) {
        return arrayOffset + 2 * (bytes / STRIDE + 1) + 7 & ~7;
    }
}
