package sectorglass.volumes;

import java.util.List;
import java.util.Map;

import sectorglass.disk.Level;
import sectorglass.disk.SetMember;
import sectorglass.disk.SetVolume;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.AssembledImage;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.verify.Checks;

/**
 * One disk of an md set. Source: Linux kernel include/uapi/linux/raid/md_p.h, struct mdp_superblock_1; the words of version 0.90 behind
 * its identity (layout 64, chunk 65, this disk 992) are from memory of the same header.
 */
record MdMember(MdSuperblock md) implements SetMember {

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
        if (level == Level.FULL) {
            new MdSet(members.stream().map(v -> (MdMember) v.capability(SetMember.class).orElseThrow()).toList()).check(out, progress);
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
                return md.u32(w, 995 * 4);
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

    /** Its data as an image from byte 0, or null where its place makes no sense or was not read. */
    SectorImage data(int sectorSize) {
        return VolumeFacts.known(() -> {
            long bytes = dataBytes();
            VolumeSite site = md.site();
            return bytes <= 0 || dataStart() < 0 ? null : AssembledImage.of(site.image().name(), sectorSize, List.of(
                    new AssembledImage.Piece(0, bytes, List.of(new AssembledImage.Source(site.image(), site.firstByte() + dataStart())))));
        });
    }

    private static long sectors(long count) {
        return count < 0 || count > Long.MAX_VALUE >> 11 ? 0 : count * 512;
    }

    /** The levels in words. */
    static String words(int level) {
        return Map.of(-4, "multipath", -1, "linear", 0, "striped", 1, "mirror").getOrDefault(level, "level " + level);
    }
}
