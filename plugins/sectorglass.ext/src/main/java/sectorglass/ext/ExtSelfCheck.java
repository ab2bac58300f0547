package sectorglass.ext;

import java.util.Optional;

import sectorglass.disk.SelfCheck;
import sectorglass.disk.Structure;
import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * Whether an inode's checksum holds, and whether a directory block does: its entries fill it, and where it is the first of its folder, its checksum holds.
 * Source: Linux kernel documentation, filesystems/ext4, checksums and directory.
 */
final class ExtSelfCheck implements SelfCheck {
    private static final String INODE = "inode ";

    private final Layout layout;
    private final Groups groups;

    ExtSelfCheck(Layout layout, Groups groups) {
        this.layout = layout;
        this.groups = groups;
    }

    @Override
    public Optional<Boolean> holds(Structure structure, SectorImage image) {
        try {
            return switch (structure.format() == null ? "" : structure.format()) {
                case "ext_inode" -> inode(structure, image);
                case "ext_directory_block" -> folder(structure, image);
                default -> Optional.empty();
            };
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    private Optional<Boolean> inode(Structure structure, SectorImage image) {
        Window record = image.window(structure.range().start(), (int) structure.range().length());
        record.require(0, record.length());
        if (!layout.sb.sums() || !structure.name().startsWith(INODE) || record.filled(0, record.length(), 0)) {
            return Optional.empty(); // an inode that was never used has no checksum
        }
        return Optional.of(new Inode(Long.parseLong(structure.name().substring(INODE.length())), record).sumHolds(layout.seed));
    }

    private Optional<Boolean> folder(Structure structure, SectorImage image) {
        Window block = image.window(structure.range().start(), (int) structure.range().length());
        block.require(0, block.length());
        if (DirectoryBlock.walk(layout.sb, block, (at, length, inode, name, type) -> { }).problem() != null) {
            return Optional.of(false);
        }
        boolean first = block.u16le(4) == 12 && block.u8(6) == 1 && block.u8(8) == '.';
        long owner = first ? block.u32le(0) : 0;
        long place = owner > 0 && owner <= layout.sb.inodes() ? groups.inode(owner) : -1;
        if (!layout.sb.sums()) {
            return Optional.of(true);
        }
        if (place < 0 || !DirectoryBlock.hasTail(block)) {
            return Optional.empty(); // whose block it is cannot be told here
        }
        Inode inode = new Inode(owner, image.window(layout.site.firstByte() + place, layout.sb.inodeSize()));
        int end = block.length();
        return Optional.of(Crc.raw(inode.seed(layout.seed), block.bytes(0, end - 12)) == (int) block.u32le(end - 4));
    }
}
