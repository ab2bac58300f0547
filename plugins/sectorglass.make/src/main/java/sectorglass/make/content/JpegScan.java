package sectorglass.make.content;

import java.io.ByteArrayOutputStream;

/**
 * Encodes the scan of a baseline JPEG picture. Cosines come from {@link StrictMath} and sums are taken in a fixed order, so the
 * bits are the same on every machine.
 */
final class JpegScan {
    /** Zigzag order, ITU-T T.81, figure A.6. */
    static final int[] ZIGZAG = {0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20,
        13, 6, 7, 14, 21, 28, 35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52, 45, 38, 31, 39, 46, 53,
        60, 61, 54, 47, 55, 62, 63};
    private static final double[] COSINE = cosines();

    private final Landscape scene;
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private int bits;
    private int bitCount;

    JpegScan(Landscape scene) {
        this.scene = scene;
    }

    /** A quantiser that rises with the frequency. */
    static int quantiser(int index) {
        return 3 + 2 * (index / 8 + index % 8);
    }

    private static double[] cosines() {
        double[] table = new double[64];
        for (int frequency = 0; frequency < 8; frequency++) {
            double scale = frequency == 0 ? StrictMath.sqrt(0.125) : 0.5;
            for (int place = 0; place < 8; place++) {
                table[frequency * 8 + place] = scale * StrictMath.cos((2 * place + 1) * frequency * StrictMath.PI / 16);
            }
        }
        return table;
    }

    byte[] encode() {
        int[] previous = new int[3];
        int[][] block = new int[3][64];
        for (int y = 0; y < scene.height(); y += 8) {
            for (int x = 0; x < scene.width(); x += 8) {
                sample(block, x, y);
                for (int component = 0; component < 3; component++) {
                    previous[component] = encode(transform(block[component]), previous[component]);
                }
            }
        }
        if (bitCount > 0) {
            put((1 << 8 - bitCount) - 1, 8 - bitCount);
        }
        return out.toByteArray();
    }

    private void sample(int[][] block, int x, int y) {
        for (int i = 0; i < 64; i++) {
            int pixel = scene.pixel(x + i % 8, y + i / 8);
            int red = pixel >> 16;
            int green = pixel >> 8 & 255;
            int blue = pixel & 255;
            block[0][i] = (19595 * red + 38470 * green + 7471 * blue + 32768 >> 16) - 128;
            block[1][i] = -11059 * red - 21709 * green + 32768 * blue + 32768 >> 16;
            block[2][i] = 32768 * red - 27439 * green - 5329 * blue + 32768 >> 16;
        }
    }

    private static int[] transform(int[] samples) {
        double[] rows = new double[64];
        for (int line = 0; line < 8; line++) {
            for (int frequency = 0; frequency < 8; frequency++) {
                double sum = 0;
                for (int i = 0; i < 8; i++) {
                    sum += samples[line * 8 + i] * COSINE[frequency * 8 + i];
                }
                rows[line * 8 + frequency] = sum;
            }
        }
        int[] result = new int[64];
        for (int column = 0; column < 8; column++) {
            for (int frequency = 0; frequency < 8; frequency++) {
                double sum = 0;
                for (int i = 0; i < 8; i++) {
                    sum += rows[i * 8 + column] * COSINE[frequency * 8 + i];
                }
                int index = frequency * 8 + column;
                result[index] = (int) Math.floor(sum / quantiser(index) + 0.5);
            }
        }
        return result;
    }

    private int encode(int[] block, int previous) {
        int difference = block[0] - previous;
        int size = size(difference);
        put(JpegHuffman.DC.code(size), JpegHuffman.DC.length(size));
        value(difference, size);
        int zeros = 0;
        for (int i = 1; i < 64; i++) {
            int coefficient = block[ZIGZAG[i]];
            if (coefficient == 0) {
                zeros++;
                continue;
            }
            for (; zeros > 15; zeros -= 16) {
                put(JpegHuffman.AC.code(0xF0), JpegHuffman.AC.length(0xF0));
            }
            size = size(coefficient);
            put(JpegHuffman.AC.code(zeros << 4 | size), JpegHuffman.AC.length(zeros << 4 | size));
            value(coefficient, size);
            zeros = 0;
        }
        if (zeros > 0) {
            put(JpegHuffman.AC.code(0), JpegHuffman.AC.length(0));
        }
        return block[0];
    }

    private static int size(int value) {
        return 32 - Integer.numberOfLeadingZeros(Math.abs(value));
    }

    private void value(int value, int size) {
        if (size > 0) {
            put(value < 0 ? value + (1 << size) - 1 : value, size);
        }
    }

    private void put(int code, int length) {
        for (int i = length - 1; i >= 0; i--) {
            bits = bits << 1 | code >> i & 1;
            if (++bitCount == 8) {
                out.write(bits);
                if ((bits & 0xFF) == 0xFF) {
                    out.write(0);
                }
                bits = 0;
                bitCount = 0;
            }
        }
    }
}
