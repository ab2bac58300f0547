package sectorglass.make.ntfs;

import java.util.ArrayList;
import java.util.List;

import sectorglass.make.DataFile;
import sectorglass.make.write.Block;
import sectorglass.make.write.ClusterRun;

/**
 * Files in more runs than their record can be trusted to hold: the runs lie in extension records, and an attribute list in the base
 * record tells which piece lies where.
 */
final class Fragments {
    private static final int IN_BASE = 25;
    private static final int PER_EXTENSION = 90;
    private static final int ENTRY = 32;

    private Fragments() {
    }

    /** Number of extension records that a file needs. */
    static int extensions(DataFile file, int clusterBytes) {
        long clusters = (file.bytes() + clusterBytes - 1) / clusterBytes;
        long runs = Math.min(file.pieces(), clusters);
        return runs <= IN_BASE ? 0 : (int) ((runs + PER_EXTENSION - 1) / PER_EXTENSION);
    }

    /** The runs, part by part, one for each extension record. */
    static List<List<ClusterRun>> parts(List<ClusterRun> runs) {
        List<List<ClusterRun>> parts = new ArrayList<>();
        for (int from = 0; from < runs.size(); from += PER_EXTENSION) {
            parts.add(runs.subList(from, Math.min(from + PER_EXTENSION, runs.size())));
        }
        return parts;
    }

    /**
     * The value of the attribute list of a file whose base record holds standard information (id 0), the list (id 1) and its name (id 2).
     *
     * @param base reference of the base record
     * @param references of the extension records, one piece of the content in each, as its only attribute
     */
    static byte[] list(long base, List<List<ClusterRun>> parts, List<Long> references) {
        Block block = new Block(ENTRY * (2 + parts.size()));
        entry(block, 0, Attributes.STANDARD_INFORMATION, 0, base, 0);
        entry(block, 1, Attributes.FILE_NAME, 0, base, 2);
        long vcn = 0;
        for (int i = 0; i < parts.size(); i++) {
            entry(block, 2 + i, Attributes.DATA, vcn, references.get(i), 0);
            vcn += RunList.clusters(parts.get(i));
        }
        return block.bytes();
    }

    private static void entry(Block block, int index, int type, long vcn, long reference, int id) {
        int at = index * ENTRY;
        block.u32(at, type).u16(at + 4, ENTRY).u8(at + 7, 0x1A).u64(at + 8, vcn).u64(at + 16, reference).u16(at + 24, id);
    }
}
