package sectorglass.ext;

import sectorglass.image.Window;

/** Fields of an inode that contradict each other. Source: Linux kernel documentation, filesystems/ext4, index nodes. */
final class InodeSanity {
    private static final long KNOWN_SPECIAL = 0x1000L | Inode.EXTENTS | Inode.INLINE;

    private InodeSanity() {
    }

    /** What is wrong, or null. */
    static String problem(Superblock sb, Inode inode, boolean orphan) {
        Window w = inode.window();
        int type = inode.type();
        if (!inode.typeKnown()) {
            return "mode " + String.format("%04X", w.u16le(0));
        }
        if (!inode.extraSane()) {
            return "extra size " + inode.extra();
        }
        if (!orphan && inode.deleted() != 0) {
            return "time of deletion " + inode.deleted() + " with " + inode.links() + " links";
        }
        if (inode.has(Inode.EXTENTS) && !sb.hasIncompat(Features.EXTENTS)) {
            return "extents without the feature";
        }
        if (inode.has(Inode.INLINE) && !sb.hasIncompat(Features.INLINE_DATA)) {
            return "inline data without the feature";
        }
        if (inode.has(Inode.INLINE) && inode.has(Inode.EXTENTS)) {
            return "inline data and extents together";
        }
        if (inode.attributeBlock() != 0 && !sb.hasCompat(0x8)) {
            return "attribute block " + inode.attributeBlock() + " without the feature";
        }
        if (inode.has(Inode.HASH_TREE) && type != Inode.DIRECTORY) {
            return "hash tree flag, but no directory";
        }
        if (inode.has(Inode.VALUE) && (type != Inode.REGULAR || !sb.hasIncompat(Features.EA_INODE))) {
            return "flag of an attribute's value, mode " + String.format("%04X", w.u16le(0));
        }
        if ((w.u32le(0x20) & 0x40000000L) != 0 && (type != Inode.DIRECTORY || !sb.hasIncompat(Features.CASEFOLD))) {
            return "casefold flag";
        }
        if (inode.has(0x100000) && type != Inode.REGULAR) {
            return "verity flag, but no file";
        }
        if (inode.has(Inode.ENCRYPTED) && !sb.hasIncompat(Features.ENCRYPT) && type != Inode.REGULAR) {
            return "encrypted without the feature";
        }
        if (type == Inode.LINK) {
            return link(sb, inode);
        }
        boolean device = type != Inode.DIRECTORY && type != Inode.REGULAR;
        if (device && (inode.size(sb) != 0 || (inode.flags() & KNOWN_SPECIAL) != 0)) {
            return "size " + inode.size(sb) + ", flags " + Long.toHexString(inode.flags()) + " of a device, pipe or socket";
        }
        if (device && type != 2 && type != 6 && !w.filled(0x28, 60, 0)) {
            return "block map of a pipe or socket";
        }
        return type == Inode.DIRECTORY && inode.size(sb) == 0 ? "directory of size 0" : null;
    }

    private static String link(Superblock sb, Inode inode) {
        long size = inode.size(sb);
        if (size <= 0 || size > sb.blockSize()) {
            return "symbolic link of " + size + " bytes";
        }
        if (inode.fastLink(sb) && !inode.has(Inode.ENCRYPTED)) {
            int length = 0;
            while (length < 60 && inode.window().u8(0x28 + length) != 0) {
                length++;
            }
            return length != size ? "symbolic link of " + size + " bytes, target of " + length : null;
        }
        return null;
    }
}
