package sectorglass.make.fat;

import java.util.List;

import sectorglass.make.DataFile;
import sectorglass.make.Node;
import sectorglass.make.Times;
import sectorglass.make.write.Block;
import sectorglass.make.write.FatTime;

/** The slots of one directory, written one after the other (Microsoft FAT specification, "FAT Directory Structure"). */
final class FatDirectory {
    private static final int SLOT = 32;
    private static final int DIRECTORY = 0x10;
    private static final int LABEL = 0x08;
    private static final int LONG = 0x0F;
    private static final int DELETED = 0xE5;
    /** Places of the 13 units in a long-name slot. */
    private static final int[] UNITS = {1, 3, 5, 7, 9, 14, 16, 18, 20, 22, 24, 28, 30};

    private final Block block;
    private final FatNames names = new FatNames();
    private int at;

    FatDirectory(int slots) {
        block = new Block(slots * SLOT);
    }

    /** Slots that a directory needs. */
    static int slots(List<? extends Node> children, int before) {
        int slots = before;
        for (Node child : children) {
            slots += 1 + FatNames.longSlots(child.name());
        }
        if (slots > 65536) {
            throw new IllegalArgumentException("a directory has 65536 slots at most, not " + slots);
        }
        return slots;
    }

    void label(String label, Times times) {
        entry(FatNames.label(label), LABEL, times, 0, 0, false);
    }

    void dots(Times times, long own, long parent) {
        entry(".          ".getBytes(java.nio.charset.StandardCharsets.US_ASCII), DIRECTORY, times, own, 0, false);
        entry("..         ".getBytes(java.nio.charset.StandardCharsets.US_ASCII), DIRECTORY, times, parent, 0, false);
    }

    /**
     * Adds a file or folder.
     *
     * @return offset of its short-name entry in the directory
     */
    int add(Node node, long firstCluster) {
        byte[] shortName = names.shortName(node.name());
        boolean file = node instanceof DataFile;
        boolean deleted = node instanceof DataFile data && data.deleted();
        int slots = FatNames.longSlots(node.name());
        for (int number = slots; number > 0; number--) {
            longSlot(node.name(), number, number == slots, FatNames.checksum(shortName), deleted);
        }
        int place = at;
        entry(shortName, file ? node.attributes() : node.attributes() | DIRECTORY, node.times(), firstCluster,
                node instanceof DataFile data ? data.bytes() : 0, deleted);
        return place;
    }

    private void longSlot(String name, int number, boolean last, int checksum, boolean deleted) {
        block.u8(at, deleted ? DELETED : last ? number | 0x40 : number).u8(at + 11, LONG).u8(at + 13, checksum);
        for (int i = 0; i < UNITS.length; i++) {
            int unit = (number - 1) * UNITS.length + i;
            block.u16(at + UNITS[i], unit < name.length() ? name.charAt(unit) : unit == name.length() ? 0 : 0xFFFF);
        }
        at += SLOT;
    }

    private void entry(byte[] name, int attributes, Times times, long firstCluster, long bytes, boolean deleted) {
        long created = FatTime.packed(times.created());
        block.put(at, name).u8(at + 11, attributes);
        block.u8(at + 13, FatTime.tenMillis(times.created())).u32(at + 14, created);
        block.u16(at + 18, (int) (FatTime.packed(times.accessed()) >> 16)).u16(at + 20, (int) (firstCluster >> 16));
        block.u32(at + 22, FatTime.packed(times.modified())).u16(at + 26, (int) firstCluster).u32(at + 28, bytes);
        if (deleted) {
            block.u8(at, DELETED);
        }
        at += SLOT;
    }

    byte[] bytes() {
        return block.bytes();
    }
}
