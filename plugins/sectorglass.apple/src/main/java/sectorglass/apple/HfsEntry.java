package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Content;
import sectorglass.disk.FileEntry;
import sectorglass.disk.FileStamp;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTimes;
import sectorglass.disk.FileTree;
import sectorglass.image.SafeText;
import sectorglass.image.Window;

/** Puts together everything known of one file or folder of HFS+. Source: Apple TN1150, "Catalog File", by way of hfs_format.h (xnu). */
final class HfsEntry {
    private static final int LONGEST_TARGET = 1024;

    private final Window record;
    private final List<FileEntry.Stream> streams = new ArrayList<>();
    private final List<String> attributes = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private FileState special;
    private int links = 1;

    /** @param record its record, or null where it has none */
    HfsEntry(Window record) {
        this.record = record;
    }

    /**
     * Adds what belongs to files.
     *
     * @param target record that holds the content
     */
    void file(Window target, HfsLinks inodes, HfsAttributes compression, long bytes) {
        HfsAttributes.Found compressed = (target.u8(41) & Decmpfs.FLAG) == 0 ? null : compression.compression(target.u32be(8));
        streams.add(new FileEntry.Stream("", bytes, compressed != null ? "compressed" : "plain"));
        if (target.u64be(HfsFiles.RESOURCE_FORK) > 0) {
            streams.add(new FileEntry.Stream(HfsFiles.RESOURCE, target.u64be(HfsFiles.RESOURCE_FORK), "plain"));
        }
        if (HfsLinks.isLink(record, 0)) {
            long number = record.u32be(44);
            remarks.add(inodes.target(number) == null ? "A hard link to iNode" + number + ", whose record was not found."
                    : "A hard link: its content is that of iNode" + number + ".");
            links = target == record ? 1 : (int) Math.max(1, Math.min(Integer.MAX_VALUE, target.u32be(44)));
        } else if (HfsLinks.isFolderLink(record)) {
            special = FileState.ELSEWHERE;
            remarks.add("A hard link to a folder: what it holds lies in the folder dir_" + record.u32be(44) + " of .HFS+ Private Directory Data.");
        }
        if ((record.u16be(2) & 1) != 0) {
            attributes.add("locked");
        }
        if ((target.u8(41) & Decmpfs.FLAG) != 0) {
            attributes.add("compressed");
            String remark = compressed == null ? "Marked as compressed by the file system, but its attribute " + Decmpfs.NAME
                    + " was not found: the data fork is shown as it stands." : compressed.header().remark();
            if (remark != null) {
                remarks.add(remark);
            }
        }
    }

    /** Whether it is a symbolic link: type "slnk", creator "rhap" (TN1150, "Symbolic Links"). */
    boolean symbolic() {
        return record.matches(48, "slnkrhap");
    }

    /** Adds where a symbolic link leads. */
    void leadsTo(Content content) {
        if (content == null || content.bytes() < 1 || content.bytes() > LONGEST_TARGET) {
            return;
        }
        byte[] bytes = new byte[(int) content.bytes()];
        if (content.read(0, bytes, 0, bytes.length).isEmpty()) {
            remarks.add("A symbolic link to " + SafeText.of(new String(bytes, StandardCharsets.UTF_8)) + ".");
        }
    }

    FileEntry of(FileTree known, int id) {
        FileTimes times = record == null ? FileTimes.NONE
                : new FileTimes(stamp(12), stamp(16), stamp(20), stamp(24));
        return new FileEntry(id, known.parent(id), known.number(id), known.name(id), known.path(id), known.folder(id), false,
                known.bytes(id), times, List.copyOf(attributes), links, List.copyOf(streams), special, List.copyOf(remarks));
    }

    private FileStamp stamp(int at) {
        return FileStamp.of(HfsPlus.date(record.u32be(at)));
    }
}
