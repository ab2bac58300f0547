package sectorglass.ext;

import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges extended attributes in inodes and blocks. Source: Linux kernel documentation, filesystems/ext4, extended attributes. */
final class AttributeChecks {
    static final long MAGIC = 0xEA020000L;

    private final Census census;
    private final Layout layout;
    private final Tally tally;

    AttributeChecks(Census census, Tally tally) {
        this.census = census;
        this.layout = census.layout;
        this.tally = tally;
    }

    /** Attributes after the extra fields of an inode. */
    void inside(Inode inode, Mark cause) {
        int size = inode.window().length();
        int start = 128 + inode.extra();
        if (size <= 128 || !inode.extraSane() || inode.extra() == 0 || start + 8 > size) {
            return;
        }
        if (inode.window().u32le(start) != MAGIC) {
            return;
        }
        String problem = entries(inode.window(), start + 4, start + 4, size);
        verdict(problem, inode.window().range(start, size - start), inode.window().range(), inode.number(), cause);
    }

    private void verdict(String problem, ByteRange where, ByteRange structure, long inode, Mark cause) {
        if (problem != null) {
            tally.fail("ext.xattr.entry", where, structure, Outcome.failed(problem, "names and values inside, apart from each other")
                    .with("inode", inode).because(cause));
        } else {
            tally.pass("ext.xattr.entry");
        }
    }

    /** Whether an inode can hold a value: it has the flag, or was not read. */
    private boolean value(long number) {
        if (!layout.sb.hasIncompat(Features.EA_INODE) || census.groups.inode(number) < 0) {
            return false;
        }
        Window w = layout.site.window(census.groups.inode(number), 128);
        return !w.isRead(0, 128) || (w.u32le(0x20) & Inode.VALUE) != 0;
    }

    /** Units of 512 bytes of values that stand in inodes of their own: they count for the file, too. */
    long valueSectors(Inode inode) {
        int size = inode.window().length();
        int start = 128 + inode.extra();
        long sum = 0;
        if (size > 128 && inode.extraSane() && start + 8 <= size && inode.window().u32le(start) == MAGIC) {
            sum += values(inode.window(), start + 4, size);
        }
        if (inode.attributeBlock() != 0 && layout.inVolume(inode.attributeBlock())) {
            Window w = layout.read(inode.attributeBlock());
            sum += w.isRead(0, layout.blockSize) && w.u32le(0) == MAGIC ? values(w, 32, layout.blockSize) : 0;
        }
        return sum;
    }

    private long values(Window w, int at, int end) {
        long sum = 0;
        for (int entry = at; entry + 16 <= end && w.u32le(entry) != 0; entry += 16 + w.u8(entry) + 3 & ~3) {
            long unit = (long) layout.blockSize * layout.sb.clusterRatio();
            sum += w.u32le(entry + 4) == 0 ? 0 : (w.u32le(entry + 8) + unit - 1) / unit * unit / 512;
        }
        return sum;
    }

    /** The blocks that inodes named. */
    void run() {
        census.attributes.forEach((block, count) -> {
            Window w = layout.read(block);
            ByteRange structure = layout.block(block);
            if (!w.isRead(0, layout.blockSize)) {
                tally.unread("ext.xattr.entry", w.missing(0, layout.blockSize));
                if (layout.sb.sums()) {
                    tally.unread("ext.xattr.checksum", w.missing(0, layout.blockSize));
                }
                return;
            }
            Mark sum = null;
            if (w.u32le(0) != MAGIC || w.u32le(8) != 1) {
                tally.fail("ext.xattr.entry", w.range(0, 12), structure, Outcome.failed(String.format("magic %08X, %d blocks", w.u32le(0),
                        w.u32le(8)), "EA020000, 1 block"));
                return;
            }
            if (layout.sb.sums()) {
                byte[] bytes = w.bytes(0, layout.blockSize);
                bytes[16] = 0;
                bytes[17] = 0;
                bytes[18] = 0;
                bytes[19] = 0;
                int computed = Crc.raw(Crc.raw(layout.seed, Crc.le64(block)), bytes);
                if (computed != (int) w.u32le(16)) {
                    sum = tally.fail("ext.xattr.checksum", w.range(16, 4), structure, Outcome.failed(String.format("%08X", w.u32le(16)),
                            String.format("%08X", computed)));
                } else {
                    tally.pass("ext.xattr.checksum");
                }
            }
            String problem = entries(w, 32, 0, layout.blockSize);
            if (problem == null && w.u32le(4) != count && census.unreadInodes.isEmpty()) {
                problem = "reference count " + w.u32le(4) + ", named by " + count + " inodes";
            }
            verdict(problem, structure, structure, 0, sum);
        });
        tally.flush(new ByteRange(layout.site.firstByte(), layout.sb.blocks() * layout.blockSize));
    }

    /**
     * @param at first entry
     * @param base values are counted from here
     */
    private String entries(Window w, int at, int base, int end) {
        int lowest = end;
        int entry = at;
        while (entry + 4 <= end && w.u32le(entry) != 0) {
            if (entry + 16 > end || entry + 16 + w.u8(entry) > end) {
                return "entry at byte " + entry + " reaches over the end";
            }
            int index = w.u8(entry + 1);
            long size = w.u32le(entry + 8);
            int offset = w.u16le(entry + 2);
            if (w.u8(entry) == 0 && index != 2 && index != 3) {
                return "entry at byte " + entry + " without a name";
            }
            if (w.u32le(entry + 4) == 0) {
                if (size > end - base - offset || size > 0 && base + offset < entry) {
                    return "value of " + size + " bytes at " + offset;
                }
                if (size > 0) {
                    lowest = Math.min(lowest, base + offset);
                }
            } else if (size == 0) {
                return "value of no bytes in inode " + w.u32le(entry + 4);
            } else if (!value(w.u32le(entry + 4))) {
                return "value in inode " + w.u32le(entry + 4);
            }
            entry += 16 + w.u8(entry) + 3 & ~3;
            if (entry > lowest) {
                return "names and values overlap at byte " + entry;
            }
        }
        return entry + 4 > end && end - base > 16 && entry != lowest ? "list without an end" : null;
    }
}
