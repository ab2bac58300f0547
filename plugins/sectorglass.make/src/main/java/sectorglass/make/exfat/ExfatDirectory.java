package sectorglass.make.exfat;

import java.util.List;

import sectorglass.make.DataFile;
import sectorglass.make.Node;
import sectorglass.make.Times;
import sectorglass.make.write.Block;
import sectorglass.make.write.ClusterRun;
import sectorglass.make.write.FatTime;

/** The entries of one directory (Microsoft exFAT specification, sections 6 and 7). */
final class ExfatDirectory {
    private static final int ENTRY = 32;
    private static final int DIRECTORY = 0x10;
    private static final int IN_USE = 0x80;
    private static final int UTC = 0x80;

    private final Block block;
    private int at;

    ExfatDirectory(long bytes) {
        block = new Block(Math.toIntExact(bytes));
    }

    static int entries(String name) {
        if (name.isEmpty() || name.length() > 255 || !name.chars().allMatch(u -> u >= 0x20 && "\"*/:<>?\\|".indexOf(u) < 0)) {
            throw new IllegalArgumentException("exFAT cannot store the name \"" + name + "\"");
        }
        return 2 + (name.length() + 14) / 15;
    }

    static long bytes(List<? extends Node> children, int before) {
        long entries = before;
        for (Node child : children) {
            entries += entries(child.name());
        }
        if (entries * ENTRY > 256L << 20) {
            throw new IllegalArgumentException("a directory has 256 MiB at most");
        }
        return entries * ENTRY;
    }

    void label(String label) {
        if (label.length() > 11) {
            throw new IllegalArgumentException("exFAT stores 11 characters of a label: " + label);
        }
        block.u8(at, label.isEmpty() ? 0x03 : 0x83).u8(at + 1, label.length()).utf16(at + 2, label);
        at += ENTRY;
    }

    void bitmap(ClusterRun run, long bytes) {
        block.u8(at, 0x81).u32(at + 20, run.first()).u64(at + 24, bytes);
        at += ENTRY;
    }

    void upCase(ClusterRun run, byte[] table) {
        block.u8(at, 0x82).u32(at + 4, ExfatSums.sum32(0, table, 0, table.length)).u32(at + 20, run.first());
        block.u64(at + 24, table.length);
        at += ENTRY;
    }

    /**
     * Adds the entry set of a file or folder.
     *
     * @param runs its clusters; where they are one run they are marked as contiguous
     * @param bytes its size; of a folder, its whole allocation
     * @return offset of the set
     */
    int add(Node node, List<ClusterRun> runs, long bytes) {
        int place = at;
        int secondary = entries(node.name()) - 1;
        boolean deleted = node instanceof DataFile file && file.deleted();
        int attributes = node instanceof DataFile ? node.attributes() : node.attributes() | DIRECTORY;
        block.u8(at, 0x85).u8(at + 1, secondary).u16(at + 4, attributes);
        times(node.times());
        int stream = at + ENTRY;
        block.u8(stream, 0xC0).u8(stream + 1, runs.size() == 1 ? 3 : 1).u8(stream + 3, node.name().length());
        block.u16(stream + 4, ExfatSums.nameHash(node.name())).u64(stream + 8, bytes);
        block.u32(stream + 20, runs.isEmpty() ? 0 : runs.get(0).first()).u64(stream + 24, bytes);
        int name = stream + ENTRY;
        for (int unit = 0; unit < node.name().length(); unit += 15, name += ENTRY) {
            block.u8(name, 0xC1).utf16(name + 2, node.name().substring(unit, Math.min(unit + 15, node.name().length())));
        }
        block.u16(at + 2, ExfatSums.set(block.bytes(), at, name - at));
        for (int entry = at; deleted && entry < name; entry += ENTRY) {
            block.u8(entry, block.bytes()[entry] & ~IN_USE);
        }
        at = name;
        return place;
    }

    private void times(Times times) {
        block.u32(at + 8, FatTime.packed(times.created())).u32(at + 12, FatTime.packed(times.modified()));
        block.u32(at + 16, FatTime.packed(times.accessed())).u8(at + 20, FatTime.tenMillis(times.created()));
        block.u8(at + 21, FatTime.tenMillis(times.modified())).u8(at + 22, UTC).u8(at + 23, UTC).u8(at + 24, UTC);
    }

    byte[] bytes() {
        return block.bytes();
    }
}
