package sectorglass.volumes;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import sectorglass.disk.Level;
import sectorglass.disk.SetMember;
import sectorglass.disk.SetVolume;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.AssembledImage;
import sectorglass.image.AssembledImage.Piece;
import sectorglass.image.AssembledImage.Source;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.verify.Checks;

/**
 * One disk of an md set. Source: Linux kernel include/uapi/linux/raid/md_p.h, struct mdp_superblock_1 and mdp_superblock_s.
 */
record MdMember(MdSuperblock md) implements SetMember {
    /** State of a disk in version 0.90, bits MD_DISK_FAULTY and MD_DISK_REMOVED. */
    private static final int OLD_FAULTY = 1;
    private static final int OLD_REMOVED = 8;
    private static final int RECOVERY_OFFSET = 2;
    private static final int RESHAPE_ACTIVE = 4;
    private static final int BAD_BLOCKS = 8;
    /** Sectors of a list of bad blocks are two or eight; a claim of more is cut. */
    private static final int MOST_LIST = 128;

    @Override
    public String set() {
        return "md:" + VolumeFacts.known(md::uuid);
    }

    @Override
    public List<SetVolume> assemble(List<Volume> members) {
        return new MdSet(members.stream().map(v -> (MdMember) v.capability(SetMember.class).orElseThrow()).toList()).volumes();
    }

    @Override
    public List<String> remarks(List<Volume> members) {
        return new MdSet(members.stream().map(v -> (MdMember) v.capability(SetMember.class).orElseThrow()).toList()).remarks();
    }

    @Override
    public void check(List<Volume> members, Level level, Checks out, Progress progress) {
        MdSet set = new MdSet(members.stream().map(v -> (MdMember) v.capability(SetMember.class).orElseThrow()).toList());
        MdSetChecks checks = new MdSetChecks(set, out);
        checks.superblocks();
        if (level == Level.FULL) {
            checks.data(progress);
        }
    }

    private Window window() {
        return md.window();
    }

    /** Place in the set from 0; -1 for a spare or a faulty one, or where it was not read. */
    int place() {
        Long place = VolumeFacts.known(() -> {
            Window w = window();
            if (md.old()) {
                boolean gone = (md.u32(w, 996 * 4) & (OLD_FAULTY | OLD_REMOVED)) != 0;
                return gone ? -1L : md.u32(w, 995 * 4);
            }
            long device = w.u32le(160);
            return device < w.u32le(220) && device < 1920 ? (long) w.u16le((int) (256 + 2 * device)) : -1L;
        });
        return place == null || place < 0 || place >= 0xFFFE || place >= md.disks() ? -1 : place.intValue();
    }

    /** Counts every change of the set: a disk with fewer events than another was left behind. */
    long events() {
        Long events = VolumeFacts.known(() -> md.old() ? md.u32(window(), md.bigEndian() ? 160 : 156) : window().u64le(200));
        return events == null ? 0 : events;
    }

    /** Whether the checksum of its superblock was read and holds. */
    boolean sumHolds() {
        return Boolean.TRUE.equals(VolumeFacts.known(md::sumHolds));
    }

    /** Byte of the member where its data begins. */
    long dataStart() {
        return md.old() ? 0 : sectors(window().u64le(128));
    }

    /** Bytes of data on this disk. */
    long dataBytes() {
        if (md.old()) {
            boolean whole = md.level() == 0 || md.level() == -1;
            return whole ? md.at() : md.u32(window(), 32) * 1024;
        }
        long used = window().u64le(80);
        boolean each = md.level() == 1 || md.level() >= 4;
        long bytes = sectors(each && used > 0 ? used : window().u64le(136));
        return Math.min(bytes, Math.max(0, md.site().bytes() - dataStart()));
    }

    /** Bytes of a chunk; 0 where the level has none. */
    long chunk() {
        return md.old() ? md.u32(window(), 65 * 4) : sectors(window().u32le(88));
    }

    /** Number of the layout. */
    long layout() {
        return md.u32(window(), md.old() ? 64 * 4 : 76);
    }

    /** Whether a feature of version 1 is on; false where it was not read. */
    private boolean feature(int bit) {
        return !md.old() && Boolean.TRUE.equals(VolumeFacts.known(() -> (window().u32le(8) & bit) != 0));
    }

    /** Whether the set is being brought into another shape: its data stands in two layouts. */
    boolean reshaping() {
        return md.old() ? Boolean.TRUE.equals(VolumeFacts.known(() -> md.u32(window(), 8) > 90)) : feature(RESHAPE_ACTIVE);
    }

    /** Bytes of data that are rebuilt already where the disk is being rebuilt, otherwise all. */
    long rebuiltBytes() {
        Long known = feature(RECOVERY_OFFSET) ? VolumeFacts.known(() -> window().u64le(152)) : null;
        return known == null || known < 0 || known > dataBytes() / 512 ? dataBytes() : sectors(known);
    }

    /**
     * Runs of the data that the set itself noted as bad on this disk, in order, from the start of the data. Source: Linux kernel
     * drivers/md/md.c, super_1_load: eight bytes each, the low 10 bits are the length, the others the sector of the disk (from memory;
     * held against mdadm --examine-badblocks).
     */
    List<ByteRange> badRuns() {
        List<ByteRange> runs = new ArrayList<>();
        if (feature(BAD_BLOCKS)) {
            VolumeFacts.known(() -> {
                Window w = window();
                int shift = w.u8(185);
                long at = md.at() + (long) (int) w.u32le(188) * 512;
                int length = Math.min(MOST_LIST, w.u16le(186)) * 512;
                if (shift > 16 || at < 0 || length == 0 || !md.site().has(at, length)) {
                    return null;
                }
                Window list = md.site().window(at, length);
                for (int i = 0; i < length && list.u64le(i) != -1; i += 8) {
                    long start = ((list.u64le(i) >>> 10) << shift) * 512 - dataStart();
                    long bytes = ((list.u64le(i) & 0x3FF) << shift) * 512;
                    if (bytes > 0 && start >= 0 && start < dataBytes()) {
                        runs.add(new ByteRange(start, Math.min(bytes, dataBytes() - start)));
                    }
                }
                return runs;
            });
        }
        runs.sort(java.util.Comparator.comparingLong(ByteRange::start));
        return runs;
    }

    /** Its data as an image from byte 0, or null where its place makes no sense or was not read; what the disk does not hold is unread. */
    SectorImage data(int sectorSize) {
        return VolumeFacts.known(() -> {
            long bytes = dataBytes();
            VolumeSite site = md.site();
            if (bytes <= 0 || dataStart() < 0) {
                return null;
            }
            List<Piece> pieces = new ArrayList<>();
            long at = 0;
            long valid = Math.min(bytes, rebuiltBytes());
            for (ByteRange bad : badRuns()) {
                at = plain(pieces, at, Math.min(valid, bad.start()), site);
                if (bad.end() > at && bad.start() < valid) {
                    pieces.add(new Piece(at, bad.end() - at, List.of()));
                    at = bad.end();
                }
            }
            at = plain(pieces, at, valid, site);
            if (at < bytes) {
                pieces.add(new Piece(at, bytes - at, List.of()));
            }
            return AssembledImage.of(site.image().name(), sectorSize, pieces);
        });
    }

    private long plain(List<Piece> pieces, long from, long to, VolumeSite site) {
        if (to <= from) {
            return from;
        }
        pieces.add(new Piece(from, to - from, List.of(new Source(site.image(), site.firstByte() + dataStart() + from))));
        return to;
    }

    /** Whether all of its data stands on it as far as the set knows. */
    boolean whole() {
        return rebuiltBytes() == dataBytes() && badRuns().isEmpty();
    }

    private static long sectors(long count) {
        return count < 0 || count > Long.MAX_VALUE >> 11 ? 0 : count * 512;
    }

    /** The levels in words. */
    static String words(int level) {
        return Map.of(-4, "multipath", -1, "linear", 0, "striped", 1, "mirror").getOrDefault(level, "level " + level);
    }
}
