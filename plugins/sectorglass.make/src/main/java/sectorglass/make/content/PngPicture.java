package sectorglass.make.content;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.zip.Adler32;
import java.util.zip.CRC32;

/**
 * A PNG picture (ISO/IEC 15948) of an exact size: true colour, pixel data in stored blocks so that no compressor's version
 * matters, the rest filled by an ancillary private chunk.
 */
final class PngPicture {
    private static final int FRAME = 8 + 25 + 12 + 12 + 6;
    private static final int PAD_FRAME = 12;
    private static final int STORED = 65535;

    private PngPicture() {
    }

    static byte[] of(int bytes, long seed) {
        int room = bytes - FRAME - PAD_FRAME;
        int width = Math.max(1, root(room / 3 * 4 / 3));
        int height = Math.max(1, room / (3 * width + 2));
        while (FRAME + PAD_FRAME + packed(width, height) > bytes) {
            height--;
        }
        Landscape scene = new Landscape(width, height, 0, seed);
        ByteBuffer out = ByteBuffer.allocate(bytes);
        out.putLong(0x89504E470D0A1A0AL);
        ByteBuffer header = ByteBuffer.allocate(13).putInt(width).putInt(height).put((byte) 8).put((byte) 2);
        chunk(out, "IHDR", header.array());
        int pad = bytes - FRAME - PAD_FRAME - packed(width, height);
        chunk(out, "paDd", new byte[pad]);
        chunk(out, "IDAT", zlib(scene));
        chunk(out, "IEND", new byte[0]);
        return out.array();
    }

    private static int packed(int width, int height) {
        int raw = height * (1 + 3 * width);
        return raw + 5 * ((raw + STORED - 1) / STORED);
    }

    private static byte[] zlib(Landscape scene) {
        int line = 1 + 3 * scene.width();
        byte[] raw = new byte[line * scene.height()];
        for (int y = 0; y < scene.height(); y++) {
            for (int x = 0; x < scene.width(); x++) {
                int pixel = scene.pixel(x, y);
                int at = y * line + 1 + 3 * x;
                raw[at] = (byte) (pixel >> 16);
                raw[at + 1] = (byte) (pixel >> 8);
                raw[at + 2] = (byte) pixel;
            }
        }
        ByteBuffer out = ByteBuffer.allocate(6 + packed(scene.width(), scene.height()));
        out.put((byte) 0x78).put((byte) 0x01);
        for (int at = 0; at < raw.length; at += STORED) {
            int count = Math.min(STORED, raw.length - at);
            out.put((byte) (at + count == raw.length ? 1 : 0));
            out.put((byte) count).put((byte) (count >> 8)).put((byte) ~count).put((byte) (~count >> 8));
            out.put(raw, at, count);
        }
        Adler32 adler = new Adler32();
        adler.update(raw);
        return out.putInt((int) adler.getValue()).array();
    }

    private static void chunk(ByteBuffer out, String type, byte[] data) {
        byte[] name = type.getBytes(StandardCharsets.US_ASCII);
        CRC32 crc = new CRC32();
        crc.update(name);
        crc.update(data);
        out.putInt(data.length).put(name).put(data).putInt((int) crc.getValue());
    }

    /** Whole square root. */
    static int root(int value) {
        int root = 0;
        for (int bit = 1 << 15; bit > 0; bit >>= 1) {
            if ((long) (root + bit) * (root + bit) <= value) {
                root += bit;
            }
        }
        return root;
    }
}
