package sectorglass.apple;

import java.nio.ByteOrder;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/**
 * The journal of an HFS+ volume: its info block (big endian) and its header, in the order of the computer that wrote it. Source: Apple
 * TN1150, "Journal", by way of vfs_journal.c (xnu); the checksum is from memory of that file.
 */
final class HfsJournal {
    static final int INFO = 180;
    static final int HEADER = 44;
    private static final int MAGIC = 0x4A4E4C78;
    private static final int ENDIAN = 0x12345678;

    private final HfsLayout layout;
    private final VolumeHeader info;

    HfsJournal(HfsLayout layout) {
        this.layout = layout;
        this.info = new VolumeHeader(layout.site, layout.place.start() + layout.header.u32be(12) * layout.blockSize, INFO);
    }

    /** The info block. */
    VolumeHeader info() {
        return info;
    }

    /** The journal's header, or null where it lies on another device or nothing that was read says where. */
    VolumeHeader header() {
        return VolumeFacts.known(() -> {
            if (!info.inside() || (info.window().u32be(0) & 1) == 0) {
                return null;
            }
            long at = info.window().u64be(36);
            VolumeHeader header = new VolumeHeader(layout.site, at < 0 || at > layout.place.length() ? -1 : layout.place.start() + at, HEADER);
            return header.inside() ? header : null;
        });
    }

    /** Order of the header's bytes by its endian field, or null where that is neither. */
    private static ByteOrder order(Window w) {
        return w.u32le(4) == ENDIAN ? ByteOrder.LITTLE_ENDIAN : w.u32be(4) == ENDIAN ? ByteOrder.BIG_ENDIAN : null;
    }

    /** Whether the bytes of the header are little endian; true where nothing tells. */
    boolean little() {
        VolumeHeader header = header();
        return header == null || !Boolean.FALSE.equals(VolumeFacts.known(() -> order(header.window()) != ByteOrder.BIG_ENDIAN));
    }

    private static long u64(Window w, int at) {
        return order(w) == ByteOrder.LITTLE_ENDIAN ? w.u64le(at) : w.u64be(at);
    }

    private static long u32(Window w, int at) {
        return order(w) == ByteOrder.LITTLE_ENDIAN ? w.u32le(at) : w.u32be(at);
    }

    /** Whether transactions wait in it; null where it was not read or makes no sense. */
    Boolean pending() {
        VolumeHeader header = header();
        return header == null ? null : VolumeFacts.known(() -> {
            Window w = header.window();
            return problem(w) == null ? (Boolean) (u64(w, 8) != u64(w, 16)) : null;
        });
    }

    /** What is wrong with the header, or null. */
    private String problem(Window w) {
        if (order(w) == null || u32(w, 0) != MAGIC) {
            return "magic " + VolumeHeader.hex(w.u32be(0)) + ", byte order " + VolumeHeader.hex(w.u32be(4));
        }
        long size = u64(w, 24);
        if (size <= 0 || size > layout.place.length() || info.window().isRead(44, 8) && info.window().u64be(44) != size) {
            return size + " bytes";
        }
        return u64(w, 8) < u32(w, 40) || u64(w, 8) > size || u64(w, 16) < u32(w, 40) || u64(w, 16) > size
                ? "transactions from " + u64(w, 8) + " to " + u64(w, 16) + " in " + size + " bytes" : null;
    }

    void check(Checks all) {
        Mark place = all.in(info.inside() ? info.whole() : layout.range(0, 1)).check("hfs.journal.place",
                info.inside() ? info.range(0, 52) : layout.range(0, 1), () -> {
                    if (!info.inside()) {
                        return Outcome.failed("block " + layout.header.u32be(12), "a block of the volume");
                    }
                    Window w = info.window();
                    long flags = w.u32be(0);
                    long at = w.u64be(36);
                    long size = w.u64be(44);
                    return Outcome.test((flags & 3) != 0 && ((flags & 1) == 0 || at > 0 && size > 0 && at <= layout.place.length() - size),
                            "flags " + flags + ", byte " + at + ", " + size + " bytes", "a place in the volume or on another device");
                });
        VolumeHeader header = header();
        if (header == null || !place.passed() || (info.window().u32be(0) & 4) != 0) {
            return;
        }
        Checks out = all.in(header.whole());
        Mark sound = out.check("hfs.journal.header", header.range(0, HEADER), () -> {
            Window w = header.window();
            w.require(0, HEADER);
            String problem = problem(w);
            return Outcome.test(problem == null, problem, "magic, size and pointers that fit");
        });
        if (sound.passed()) {
            out.check("hfs.journal.checksum", header.range(36, 4), () -> {
                Window w = header.window();
                return Outcome.test(sum(w) == u32(w, 36), VolumeHeader.hex(u32(w, 36)), VolumeHeader.hex(sum(w)));
            });
        }
    }

    /** The sum over the header with its own field as zero. */
    static long sum(Window w) {
        int sum = 0;
        for (int i = 0; i < HEADER; i++) {
            sum = sum << 8 ^ sum + (i >= 36 && i < 40 ? 0 : w.u8(i));
        }
        return ~sum & 0xFFFFFFFFL;
    }
}
