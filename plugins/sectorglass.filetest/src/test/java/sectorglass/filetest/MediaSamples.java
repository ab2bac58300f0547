package sectorglass.filetest;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Random;

/**
 * Sound and video files put together from their standards, with random bytes for what a coder would have written: ISO/IEC 14496-12, the RIFF
 * specification, RFC 9559, RFC 3533, RFC 9639, ISO/IEC 11172-3.
 */
final class MediaSamples {

    private MediaSamples() {
    }

    private static byte[] join(byte[]... parts) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            out.writeBytes(part);
        }
        return out.toByteArray();
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.ISO_8859_1);
    }

    private static byte[] ints(ByteOrder order, int... values) {
        ByteBuffer to = ByteBuffer.allocate(values.length * 4).order(order);
        for (int value : values) {
            to.putInt(value);
        }
        return to.array();
    }

    private static byte[] big(int... values) {
        return ints(ByteOrder.BIG_ENDIAN, values);
    }

    private static byte[] little(int... values) {
        return ints(ByteOrder.LITTLE_ENDIAN, values);
    }

    private static byte[] random(Random random, int length) {
        byte[] some = new byte[length];
        random.nextBytes(some);
        return some;
    }

    private static byte[] box(String kind, byte[]... parts) {
        byte[] inside = join(parts);
        return join(big(inside.length + 8), ascii(kind), inside);
    }

    /** A video track of 60 samples of units with a length, in chunks of five. */
    static byte[] mp4(Random random) {
        int samples = 60;
        ByteBuffer data = ByteBuffer.allocate(1 << 20);
        int[] sizes = new int[samples];
        for (int i = 0; i < samples; i++) {
            int start = data.position();
            for (int unit = 0; unit < 3; unit++) {
                byte[] bytes = random(random, 300 + random.nextInt(1500));
                bytes[0] &= 0x7F;
                data.putInt(bytes.length).put(bytes);
            }
            sizes[i] = data.position() - start;
        }
        byte[] media = java.util.Arrays.copyOf(data.array(), data.position());
        byte[] ftyp = box("ftyp", ascii("isom"), big(0), ascii("isomavc1"));
        int at = ftyp.length + 8;
        int[] places = new int[samples / 5];
        for (int i = 0; i < samples; i++) {
            if (i % 5 == 0) {
                places[i / 5] = at;
            }
            at += sizes[i];
        }
        byte[] config = box("avcC", new byte[] {1, 66, 0, 30, (byte) 0xFF, (byte) 0xE1, 0, 0, 0}, new byte[32]);
        byte[] entry = box("avc1", new byte[78], config);
        byte[] stbl = box("stbl", box("stsd", big(0, 1), entry), box("stts", big(0, 1, samples, 1000)), box("stsc", big(0, 1, 1, 5, 1)),
                box("stsz", big(0, 0, samples), big(sizes)), box("stco", big(0, places.length), big(places)));
        byte[] trak = box("trak", box("tkhd", new byte[84]), box("mdia", box("mdhd", new byte[24]), box("minf", box("vmhd", new byte[12]), stbl)));
        return join(ftyp, box("mdat", media), box("moov", box("mvhd", new byte[100]), trak));
    }

    private static byte[] chunk(String kind, byte[]... parts) {
        byte[] inside = join(parts);
        return join(ascii(kind), little(inside.length), inside, new byte[inside.length & 1]);
    }

    static byte[] wave(Random random) {
        byte[] format = ByteBuffer.allocate(16).order(ByteOrder.LITTLE_ENDIAN).putShort((short) 1).putShort((short) 2).putInt(44100).putInt(176400)
                .putShort((short) 4).putShort((short) 16).array();
        return chunk("RIFF", ascii("WAVE"), chunk("fmt ", format), chunk("data", random(random, 90_000)));
    }

    static byte[] avi(Random random) {
        byte[] movi = ascii("movi");
        byte[] index = {};
        for (int i = 0; i < 80; i++) {
            byte[] frame = chunk("00dc", random(random, 700 + 2 * random.nextInt(500)));
            index = join(index, ascii("00dc"), little(16, movi.length, frame.length - 8));
            movi = join(movi, frame);
        }
        byte[] header = chunk("LIST", ascii("hdrl"), chunk("avih", new byte[56]));
        return chunk("RIFF", ascii("AVI "), header, chunk("LIST", movi), chunk("idx1", index));
    }

    private static byte[] element(int id, byte[]... parts) {
        byte[] inside = join(parts);
        byte[] idBytes = big(id);
        int skip = id < 0x100 && id > 0 ? 3 : id < 0x10000 && id > 0 ? 2 : 0;
        byte[] size = big(inside.length | 0x10000000);
        return join(java.util.Arrays.copyOfRange(idBytes, skip, 4), size, inside);
    }

    static byte[] matroska(Random random) {
        byte[] segment = element(0x1549A966, element(0x4D80, ascii("maker")));
        for (int c = 0; c < 10; c++) {
            byte[] cluster = element(0xE7, new byte[] {(byte) c});
            for (int b = 0; b < 8; b++) {
                cluster = join(cluster, element(0xA3, new byte[] {(byte) 0x81, 0, (byte) b, 0}, random(random, 900)));
            }
            segment = join(segment, element(0x1F43B675, cluster));
        }
        return join(element(0x1A45DFA3, element(0x4282, ascii("matroska"))), element(0x18538067, segment));
    }

    static byte[] ogg(Random random) {
        byte[] all = {};
        for (int i = 0; i < 30; i++) {
            byte[] body = random(random, 255 * 9 + 100);
            byte[] laces = new byte[10];
            java.util.Arrays.fill(laces, 0, 9, (byte) 255);
            laces[9] = 100;
            byte[] page = join(ascii("OggS"), new byte[] {0, (byte) (i == 0 ? 2 : i == 29 ? 4 : 0)}, new byte[8], little(77, i, 0), new byte[] {10}, laces, body);
            ByteBuffer.wrap(page).order(ByteOrder.LITTLE_ENDIAN).putInt(22, crc(page));
            all = join(all, page);
        }
        return all;
    }

    /** Bit by bit, as RFC 3533 describes it. */
    private static int crc(byte[] page) {
        int crc = 0;
        for (byte b : page) {
            for (int bit = 7; bit >= 0; bit--) {
                boolean set = crc < 0 ^ (b >> bit & 1) != 0;
                crc = crc << 1 ^ (set ? 0x04C11DB7 : 0);
            }
        }
        return crc;
    }

    /** Frames of version 1, layer III, 128 kbit/s, 44.1 kHz: 417 or 418 bytes each. */
    static byte[] mp3(Random random) {
        byte[] all = {};
        for (int i = 0; i < 200; i++) {
            int padding = i % 3 == 0 ? 1 : 0;
            all = join(all, big(0xFFFB9000 | padding << 9), random(random, 413 + padding));
        }
        return all;
    }

    /** One channel of 16 bits, frames of 256 samples kept as they are (RFC 9639, sections 8.2, 9.1 and 9.2.4). */
    static byte[] flac(Random random) {
        int frames = 150;
        byte[] information = ByteBuffer.allocate(34).putShort((short) 256).putShort((short) 256).putInt(0).putShort((short) 0)
                .putLong(44_100L << 44 | 15L << 36 | frames * 256L).put(random(random, 16)).array();
        byte[] all = join(ascii("fLaC"), big(34), information, big(0x84000008), little(0, 0));
        for (int i = 0; i < frames; i++) {
            byte[] number = i < 0x80 ? new byte[] {(byte) i} : new byte[] {(byte) (0xC0 | i >> 6), (byte) (0x80 | i & 0x3F)};
            byte[] head = join(new byte[] {(byte) 0xFF, (byte) 0xF8, (byte) 0x89, 8}, number);
            byte[] frame = join(head, new byte[] {(byte) crc(head, 8, 0x07), 2}, random(random, 512));
            int sum = crc(frame, 16, 0x8005);
            all = join(all, frame, new byte[] {(byte) (sum >> 8), (byte) sum});
        }
        return all;
    }

    /** Bit by bit, the highest first, beginning with zero. */
    private static int crc(byte[] bytes, int bits, int polynomial) {
        int crc = 0;
        for (byte b : bytes) {
            for (int bit = 7; bit >= 0; bit--) {
                boolean set = (crc >> bits - 1 & 1) != (b >> bit & 1);
                crc = (crc << 1 ^ (set ? polynomial : 0)) & (1 << bits) - 1;
            }
        }
        return crc;
    }
}
