package sectorglass.make;

import java.util.ArrayList;
import java.util.List;

import sectorglass.make.write.Block;

/** Walks the B-tree of an NTFS folder in order; clusters of 4096 bytes, records of 1024, blocks in one run. */
final class IndexWalk {
    private final byte[] image;
    private final MadeVolume.Place place;
    private final List<String> names = new ArrayList<>();

    IndexWalk(byte[] image, MadeVolume.Place place) {
        this.image = image;
        this.place = place;
    }

    List<String> names() {
        Block record = fixed((int) place.entryByte(), 1024);
        int at = record.u16(0x14);
        while (record.u32(at) != 0x90) {
            at += (int) record.u32(at + 4);
        }
        int value = at + record.u16(at + 0x14);
        node(record, value + 0x10, 1);
        return names;
    }

    private void node(Block block, int header, int depth) {
        if (depth > 8) {
            throw new AssertionError("the tree is deeper than 8 levels");
        }
        int at = header + (int) block.u32(header);
        while (true) {
            int flags = block.u16(at + 12);
            if ((flags & 1) != 0) {
                long vcn = block.u32(at + block.u16(at + 8) - 8);
                Block child = fixed((int) (place.runs().get(0).firstByte() + vcn * 4096), 4096);
                if (child.u32(0x10) != vcn) {
                    throw new AssertionError("block at VCN " + vcn + " says " + child.u32(0x10));
                }
                node(child, 0x18, depth + 1);
            }
            if ((flags & 2) != 0) {
                return;
            }
            StringBuilder name = new StringBuilder();
            for (int i = 0; i < (block.bytes()[at + 0x50] & 0xFF); i++) {
                name.append((char) block.u16(at + 0x52 + 2 * i));
            }
            names.add(name.toString());
            at += block.u16(at + 8);
        }
    }

    private Block fixed(int at, int length) {
        Block block = new Block(java.util.Arrays.copyOfRange(image, at, at + length));
        int array = block.u16(4);
        for (int i = 1; i <= length / 512; i++) {
            if (block.u16(512 * i - 2) != block.u16(array)) {
                throw new AssertionError("torn at byte " + (at + 512 * i - 2));
            }
            block.u16(512 * i - 2, block.u16(array + 2 * i));
        }
        return block;
    }
}
