package sectorglass.partition;

import java.util.HashMap;
import java.util.Map;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** A sparse image in memory; changes give another one. */
final class Memory implements SectorImage {
    private static final int PAGE = 4096;

    private final Map<Long, byte[]> pages;
    private final long bytes;
    private final int sectorSize;
    private final SectorRanges unread;

    private Memory(Map<Long, byte[]> pages, long bytes, int sectorSize, SectorRanges unread) {
        this.pages = pages;
        this.bytes = bytes;
        this.sectorSize = sectorSize;
        this.unread = unread;
    }

    static Memory zeros(long bytes, int sectorSize) {
        return new Memory(new HashMap<>(), bytes, sectorSize, SectorRanges.EMPTY);
    }

    static Memory of(byte[] all, int sectorSize) {
        return zeros(all.length, sectorSize).put(0, all);
    }

    Memory put(long at, byte[] values) {
        Map<Long, byte[]> changed = new HashMap<>(pages);
        for (int i = 0; i < values.length; i++) {
            long page = (at + i) / PAGE;
            if (i == 0 || (at + i) % PAGE == 0) {
                changed.put(page, changed.getOrDefault(page, new byte[PAGE]).clone());
            }
            changed.get(page)[(int) ((at + i) % PAGE)] = values[i];
        }
        return new Memory(changed, bytes, sectorSize, unread);
    }

    Memory put(long at, int... values) {
        byte[] all = new byte[values.length];
        for (int i = 0; i < values.length; i++) {
            all[i] = (byte) values[i];
        }
        return put(at, all);
    }

    Memory u32(long at, long value) {
        return put(at, (int) value, (int) (value >> 8), (int) (value >> 16), (int) (value >> 24));
    }

    Memory u64(long at, long value) {
        return u32(at, value).u32(at + 4, value >>> 32);
    }

    Memory flip(long at, int mask) {
        return put(at, get(at) ^ mask);
    }

    int get(long at) {
        byte[] page = pages.get(at / PAGE);
        return page == null ? 0 : page[(int) (at % PAGE)] & 0xFF;
    }

    byte[] get(long at, int length) {
        byte[] all = new byte[length];
        for (int i = 0; i < length; i++) {
            all[i] = (byte) get(at + i);
        }
        return all;
    }

    /** The same bytes with another end. */
    Memory resize(long newBytes) {
        Memory cut = new Memory(new HashMap<>(), newBytes, sectorSize, unread);
        for (Map.Entry<Long, byte[]> page : pages.entrySet()) {
            long left = newBytes - page.getKey() * PAGE;
            if (left > 0) {
                byte[] copy = new byte[PAGE];
                System.arraycopy(page.getValue(), 0, copy, 0, (int) Math.min(PAGE, left));
                cut.pages.put(page.getKey(), copy);
            }
        }
        return cut;
    }

    Memory sectorSize(int size) {
        return new Memory(pages, bytes, size, unread);
    }

    Memory unread(long first, long count) {
        return new Memory(pages, bytes, sectorSize, unread.union(SectorRanges.of(first, count)));
    }

    @Override
    public String name() {
        return "memory";
    }

    @Override
    public int sectorSize() {
        return sectorSize;
    }

    @Override
    public long bytes() {
        return bytes;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        SectorStates states = SectorStates.allRead(sectorSize, firstByte, length).with(missing(), ReadState.UNREAD);
        java.util.Arrays.fill(into, offset, offset + length, (byte) 0);
        for (long at = firstByte; at < firstByte + length; at = (at / PAGE + 1) * PAGE) {
            byte[] page = pages.get(at / PAGE);
            if (page != null) {
                System.arraycopy(page, (int) (at % PAGE), into, (int) (offset + at - firstByte),
                        (int) Math.min(PAGE - at % PAGE, firstByte + length - at));
            }
        }
        for (SectorRange gone : states.missing(firstByte, length)) {
            long from = Math.max(firstByte, gone.first() * sectorSize);
            long to = Math.min(firstByte + length, gone.end() * sectorSize);
            java.util.Arrays.fill(into, (int) (offset + from - firstByte), (int) (offset + to - firstByte), (byte) 0);
        }
        return states;
    }

    private SectorRanges missing() {
        return unread.union(SectorRanges.of(sectors(), (1L << 52) - sectors()));
    }

    @Override
    public ReadState state(long lba) {
        return missing().contains(lba) ? ReadState.UNREAD : ReadState.READ;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges gone = missing().intersect(within);
        return state == ReadState.UNREAD ? gone : state == ReadState.READ ? SectorRanges.of(within).minus(gone) : SectorRanges.EMPTY;
    }
}
