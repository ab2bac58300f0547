package sectorglass.disk;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/**
 * Whole sectors that are being re-made: begins with the bytes that stand there, takes fields, and gives the ranges that became
 * different. Sectors that were not read begin as zeros and are changed whole, since a half-known sector cannot count as read.
 */
public final class SectorEdit {
    private final Window before;
    private final byte[] stored;
    private final byte[] bytes;
    private final String[] why;
    private final List<Repair.Kept> kept = new ArrayList<>();

    /**
     * @param firstByte image byte, at the start of a sector
     * @param length bytes, whole sectors
     */
    public SectorEdit(SectorImage image, long firstByte, int length) {
        before = image.window(firstByte, length);
        stored = before.raw(0, length);
        bytes = stored.clone();
        int size = image.sectorSize();
        for (int at = 0; at < length; at += size) {
            if (!before.isRead(at, Math.min(size, length - at))) {
                Arrays.fill(bytes, at, Math.min(length, at + size), (byte) 0);
            }
        }
        why = new String[length];
    }

    /** Whether all of the sectors were read. */
    public boolean read() {
        return before.isRead(0, bytes.length);
    }

    /** The bytes as they are now; shared. */
    public ByteBuffer now() {
        return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    /** Puts bytes. */
    public SectorEdit put(int at, byte[] value, String reason) {
        System.arraycopy(value, 0, bytes, at, value.length);
        Arrays.fill(why, at, at + value.length, reason);
        return this;
    }

    /** Puts bytes given as numbers. */
    public SectorEdit put(int at, String reason, int... values) {
        for (int i = 0; i < values.length; i++) {
            bytes[at + i] = (byte) values[i];
            why[at + i] = reason;
        }
        return this;
    }

    /** Puts a little-endian number of 1 to 8 bytes. */
    public SectorEdit le(int at, int width, long value, String reason) {
        for (int i = 0; i < width; i++) {
            bytes[at + i] = (byte) (value >>> 8 * i);
            why[at + i] = reason;
        }
        return this;
    }

    /** Puts zeros. */
    public SectorEdit zero(int at, int length, String reason) {
        return put(at, new byte[length], reason);
    }

    /** Names a field that stays as it stands. */
    public SectorEdit keep(int at, int length, String field, String reason) {
        kept.add(new Repair.Kept(new ByteRange(before.start() + at, length), field, reason));
        return this;
    }

    /** The fields that stay. */
    public List<Repair.Kept> kept() {
        return List.copyOf(kept);
    }

    /** What became different, neighbours of one reason joined; a sector that was not read counts as different whole. */
    public List<Repair.Change> changes(String reasonOfRest) {
        List<Repair.Change> all = new ArrayList<>();
        int size = before.sectorSize();
        int at = 0;
        while (at < bytes.length) {
            int sectorEnd = Math.min(bytes.length, at / size * size + size);
            if (!differs(at)) {
                at++;
                continue;
            }
            String reason = why[at] == null ? reasonOfRest : why[at];
            int end = at + 1;
            int last = end;
            while (end < sectorEnd && reason.equals(why[end] == null ? reasonOfRest : why[end])) {
                end++;
                last = differs(end - 1) ? end : last;
            }
            all.add(new Repair.Change(before.start() + at, Arrays.copyOfRange(bytes, at, last), reason));
            at = last;
        }
        return all;
    }

    private boolean differs(int at) {
        int size = before.sectorSize();
        int sector = at / size * size;
        return !before.isRead(sector, Math.min(size, bytes.length - sector)) || stored[at] != bytes[at];
    }
}
