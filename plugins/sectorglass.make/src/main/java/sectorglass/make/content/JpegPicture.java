package sectorglass.make.content;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;

/**
 * A baseline JPEG picture (ITU-T T.81) of an exact size: three components without subsampling, the typical tables of annex K for
 * all of them, comment segments and fill bytes for what is left.
 */
final class JpegPicture {
    private static final int COMMENT_LIMIT = 65533;

    private JpegPicture() {
    }

    static byte[] of(int bytes, long seed) {
        int pixels = Math.max(64, (int) Math.min(24_000_000L, bytes * 3L));
        while (true) {
            int width = Math.max(8, PngPicture.root(pixels / 2 * 3) / 8 * 8);
            int height = Math.max(8, width * 2 / 3 / 8 * 8);
            byte[] scan = new JpegScan(new Landscape(width, height, 6, seed)).encode();
            byte[] head = head(width, height);
            int spare = bytes - head.length - scan.length - 4;
            if (spare >= 0) {
                return join(bytes, head, scan, spare, seed);
            }
            if (width == 8 && height == 8) {
                throw new IllegalArgumentException("no JPEG picture fits " + bytes + " bytes");
            }
            pixels = pixels / 8 * 7;
        }
    }

    private static byte[] join(int bytes, byte[] head, byte[] scan, int spare, long seed) {
        byte[] out = new byte[bytes];
        out[0] = (byte) 0xFF;
        out[1] = (byte) 0xD8;
        int at = 2;
        NumberedLines lines = new NumberedLines(seed);
        int left = spare;
        while (left >= 4) {
            int segment = Math.min(left, COMMENT_LIMIT + 4 - 2);
            out[at] = (byte) 0xFF;
            out[at + 1] = (byte) 0xFE;
            out[at + 2] = (byte) (segment - 2 >> 8);
            out[at + 3] = (byte) (segment - 2);
            lines.next(out, at + 4, segment - 4);
            at += segment;
            left -= segment;
        }
        Arrays.fill(out, at, at + left, (byte) 0xFF);
        at += left;
        System.arraycopy(head, 0, out, at, head.length);
        at += head.length;
        System.arraycopy(scan, 0, out, at, scan.length);
        out[bytes - 2] = (byte) 0xFF;
        out[bytes - 1] = (byte) 0xD9;
        return out;
    }

    private static byte[] head(int width, int height) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        segment(out, 0xE0, 'J', 'F', 'I', 'F', 0, 1, 1, 0, 0, 1, 0, 1, 0, 0);
        int[] quantisation = new int[65];
        for (int i = 0; i < 64; i++) {
            quantisation[1 + i] = JpegScan.quantiser(JpegScan.ZIGZAG[i]);
        }
        segment(out, 0xDB, quantisation);
        segment(out, 0xC0, 8, height >> 8, height & 255, width >> 8, width & 255, 3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0);
        segment(out, 0xC4, JpegHuffman.DC.segment(0x00));
        segment(out, 0xC4, JpegHuffman.AC.segment(0x10));
        segment(out, 0xDA, 3, 1, 0, 2, 0, 3, 0, 0, 63, 0);
        return out.toByteArray();
    }

    private static void segment(ByteArrayOutputStream out, int marker, int... data) {
        out.write(0xFF);
        out.write(marker);
        out.write(data.length + 2 >> 8);
        out.write(data.length + 2);
        for (int value : data) {
            out.write(value);
        }
    }
}
