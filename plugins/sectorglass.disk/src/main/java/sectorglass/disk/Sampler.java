package sectorglass.disk;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.Providers;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/** Looks at evenly spread places of an image and tells what kind of bytes stand there. At most {@value #PLACES} reads of 4 KiB. */
final class Sampler {
    static final int PLACES = 256;
    static final int LENGTH = 4096;
    /** Bits per byte in 4,096 bytes above which they are as even as chance: random bytes give 7.95 on average. */
    private static final double HIGH_ENTROPY = 7.8;

    /** What stands at a place. */
    enum Kind { ZERO, REPEATED, TEXT, STRUCTURE, HIGH_ENTROPY, OTHER, UNREAD }

    private final List<Signature> signatures;

    Sampler(List<VolumeProvider> volumes) {
        List<Signature> all = new ArrayList<>();
        volumes.forEach(v -> all.addAll(v.signatures()));
        signatures = all;
    }

    static Sampler ofProviders() {
        return new Sampler(Providers.all(VolumeProvider.class));
    }

    FirstLook.Samples sample(SectorImage image) {
        int[] counts = new int[Kind.values().length];
        long room = image.bytes() - LENGTH;
        long places = Math.max(1, Math.min(PLACES, image.bytes() / LENGTH));
        long before = -1;
        for (long i = 0; i < places; i++) {
            // by 128-bit product: room times the number of places may exceed a long
            long at = places == 1 ? 0 : Math.multiplyHigh(room, i) == 0 && room * i >= 0 ? room * i / (places - 1)
                    : room / (places - 1) * i;
            at -= at % image.sectorSize();
            if (at != before) {
                int length = (int) Math.min(LENGTH, image.bytes() - at);
                counts[kind(image.window(at, length)).ordinal()]++;
            }
            before = at;
        }
        return new FirstLook.Samples(counts[0], counts[1], counts[2], counts[3], counts[4], counts[5], counts[6]);
    }

    Kind kind(Window window) {
        int length = window.length();
        if (!window.isRead(0, length)) {
            return Kind.UNREAD;
        }
        byte[] bytes = window.raw(0, length);
        int period = period(bytes);
        if (period > 0) {
            return period == 1 && bytes[0] == 0 ? Kind.ZERO : Kind.REPEATED;
        }
        if (structure(window)) {
            return Kind.STRUCTURE;
        }
        if (text(bytes)) {
            return Kind.TEXT;
        }
        return entropy(bytes) > HIGH_ENTROPY ? Kind.HIGH_ENTROPY : Kind.OTHER;
    }

    /** Length of the pattern, 1 to 16 bytes, that fills the bytes; 0 where none does. */
    private static int period(byte[] bytes) {
        for (int period = 1; period <= 16; period *= 2) {
            if (java.util.Arrays.equals(bytes, period, bytes.length, bytes, 0, bytes.length - period)) {
                return period;
            }
        }
        return 0;
    }

    private boolean structure(Window window) {
        for (int at = 0; at + window.sectorSize() <= window.length(); at += window.sectorSize()) {
            for (Signature signature : signatures) {
                byte[] wanted = signature.bytes();
                int from = at + signature.offset();
                if (wanted.length >= 4 && from + wanted.length <= window.length()
                        && java.util.Arrays.equals(window.raw(from, wanted.length), wanted)) {
                    return true;
                }
            }
        }
        return false;
    }

    private static boolean text(byte[] bytes) {
        int printable = 0;
        for (byte b : bytes) {
            if (b >= 0x20 && b < 0x7F || b == '\n' || b == '\r' || b == '\t') {
                printable++;
            }
        }
        return printable >= bytes.length * 9 / 10;
    }

    /** Shannon entropy in bits per byte. */
    static double entropy(byte[] bytes) {
        int[] counts = new int[256];
        for (byte b : bytes) {
            counts[b & 0xFF]++;
        }
        double bits = 0;
        for (int count : counts) {
            if (count > 0) {
                double share = (double) count / bytes.length;
                bits -= share * Math.log(share) / Math.log(2);
            }
        }
        return bits;
    }
}
