package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.SectorImage;

/**
 * The entries of an $ATTRIBUTE_LIST: which attribute, or piece of one, stands in which record. Sources: Linux kernel fs/ntfs3/ntfs.h
 * (ATTR_LIST_ENTRY); NTFS-3G layout.h.
 */
final class AttributeList {
    /** A list longer than this is cut: the system stops at 256 KiB (Linux kernel fs/ntfs3/ntfs_fs.h); we go a little further. */
    static final int MOST_BYTES = 1 << 20;

    /**
     * An entry.
     *
     * @param type attribute type
     * @param lowestVcn first cluster of that piece
     * @param record number of the record that holds it
     * @param sequence sequence number that record must have
     * @param id attribute id in that record
     * @param name attribute's name
     * @param offset of the entry in the list
     */
    record Entry(int type, long lowestVcn, long record, int sequence, int id, String name, int offset) { }

    private AttributeList() {
    }

    /** The entries of the list at the cursor of a record; those after the first damaged or unread one are left out. */
    static List<Entry> of(SectorImage image, Geometry geometry, RecordView view) {
        if (view.resident()) {
            int at = view.valueOffset();
            if (at < 0 || !view.has(at, view.valueLength())) {
                return List.of();
            }
            byte[] copy = new byte[view.valueLength()];
            System.arraycopy(view.bytes, view.start + at, copy, 0, copy.length);
            return parse(copy, copy.length);
        }
        if (!view.has(view.attribute, 0x40)) {
            return List.of();
        }
        RunList runs = new RunList();
        runs.add(view, view.runsOffset(), view.next, view.lowestVcn());
        int length = (int) Math.max(0, Math.min(MOST_BYTES, view.realSize()));
        StreamPart part = StreamPart.read(image, geometry, runs, 0, length);
        int read = 0;
        while (read < length && part.isRead(read, Math.min(512, length - read))) {
            read = Math.min(length, read + 512);
        }
        return parse(part.bytes, read);
    }

    static List<Entry> parse(byte[] bytes, int length) {
        List<Entry> entries = new ArrayList<>();
        FixedBlock block = new FixedBlock();
        block.bytes = bytes;
        int at = 0;
        while (at + 0x1A <= length) {
            int size = block.u16(at + 4);
            int units = block.u8(at + 6);
            int nameAt = at + block.u8(at + 7);
            if (size < 0x1A || (size & 7) != 0 || at + size > length) {
                break;
            }
            String name = units > 0 && nameAt + 2 * units <= at + size ? block.utf16(nameAt, units) : "";
            long reference = block.u64(at + 0x10);
            entries.add(new Entry(block.s32(at), block.u64(at + 8), reference & RecordView.NUMBER_MASK, (int) (reference >>> 48),
                    block.u16(at + 0x18), name, at));
            at += size;
        }
        return entries;
    }
}
