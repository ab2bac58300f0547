package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.List;

import sectorglass.disk.SetMember;
import sectorglass.disk.SetVolume;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** One physical volume of an LVM2 group. Source: LVM2 text format layout header. */
final class LvmMember implements SetMember {
    /** Bytes of a metadata area that are searched for older texts. */
    private static final int MOST_SEARCHED = 2 << 20;
    private static final int STEP = 512;

    private final VolumeSite site;
    private final String id;
    private final boolean older;
    private final LvmGroup group;

    /**
     * @param site the physical volume
     * @param label the sector of its label
     */
    LvmMember(VolumeSite site, Window label) {
        this.site = site;
        this.id = VolumeFacts.known(() -> LvmVolume.id(label.ascii(32, 32)));
        LvmGroup current = null;
        for (LvmVolume.Area area : LvmVolume.metadataAreas(label)) {
            current = newer(current, VolumeFacts.known(() -> current(area)));
        }
        LvmGroup found = current;
        if (found == null) {
            for (LvmVolume.Area area : LvmVolume.metadataAreas(label)) {
                found = newer(found, searched(area));
            }
        }
        this.older = current == null && found != null;
        this.group = found;
    }

    private static LvmGroup newer(LvmGroup a, LvmGroup b) {
        return a == null || b != null && b.seqno() > a.seqno() ? b : a;
    }

    /** The text that the area's header names, if its checksum holds. */
    private LvmGroup current(LvmVolume.Area area) {
        VolumeHeader header = new VolumeHeader(site, area.offset(), 512);
        if (!header.inside()) {
            return null;
        }
        Window w = header.window();
        byte[] text = (w.u32le(60) & 1) != 0 ? null : LvmChecks.text(site, area.offset(), w.u64le(32), w.u64le(40), w.u64le(48));
        return text == null || SeededCrc32.of(SeededCrc32.LVM, text) != w.u32le(56) ? null : LvmGroup.of(clean(text));
    }

    /** The newest text that still stands whole anywhere in the area: each change is written behind the one before. */
    private LvmGroup searched(LvmVolume.Area area) {
        long size = area.size() > 0 ? area.size() : MOST_SEARCHED;
        LvmGroup found = null;
        for (long at = STEP; at + STEP <= Math.min(size, MOST_SEARCHED) && area.offset() + at + STEP <= site.bytes(); at += STEP) {
            Window head = site.window(area.offset() + at, STEP);
            if (!head.isRead(0, STEP) || !begins(head.bytes(0, STEP))) {
                continue;
            }
            int length = (int) Math.min(size - at, Math.min(MOST_SEARCHED, site.bytes() - area.offset() - at));
            byte[] text = readable(site.window(area.offset() + at, length));
            found = newer(found, LvmGroup.of(clean(text)));
        }
        return found;
    }

    /** Whether a text begins here: a name, a brace, and the group's id. */
    private static boolean begins(byte[] sector) {
        String head = new String(sector, StandardCharsets.ISO_8859_1);
        int brace = head.indexOf(" {\nid = \"");
        return brace > 0 && brace < 128 && head.substring(0, brace).chars().allMatch(c -> Character.isLetterOrDigit(c) || "_.+-".indexOf(c) >= 0);
    }

    private static byte[] readable(Window window) {
        try {
            return window.bytes(0, window.length());
        } catch (UnreadException e) {
            long read = e.missing().run(0).first() * window.sectorSize() - window.start();
            return window.bytes(0, (int) Math.max(0, read));
        }
    }

    private static String clean(byte[] text) {
        int end = 0;
        while (end < text.length && text[end] != 0) {
            end++;
        }
        return new String(text, 0, end, StandardCharsets.UTF_8);
    }

    @Override
    public String set() {
        return "lvm2:" + (group == null ? "disk " + id : group.id());
    }

    /** Its identity, as the text names it; null where it was not read. */
    String id() {
        return id;
    }

    /** Where it lies. */
    VolumeSite site() {
        return site;
    }

    /** The group as this disk's text describes it, or null. */
    LvmGroup group() {
        return group;
    }

    /** Whether the current text was lost and an older one is used. */
    boolean older() {
        return older;
    }

    @Override
    public List<SetVolume> assemble(List<Volume> members) {
        return group == null ? List.of() : new LvmSet(own(members)).volumes();
    }

    @Override
    public List<String> remarks(List<Volume> members) {
        if (group == null) {
            return List.of("The physical volume " + id + " holds no metadata text that can be read, so its logical volumes are not known.");
        }
        LvmSet set = new LvmSet(own(members));
        set.volumes();
        return set.remarks();
    }

    private static List<LvmMember> own(List<Volume> members) {
        return members.stream().map(v -> (LvmMember) v.capability(SetMember.class).orElseThrow()).toList();
    }
}
