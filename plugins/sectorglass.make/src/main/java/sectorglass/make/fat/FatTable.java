package sectorglass.make.fat;

import java.io.IOException;
import java.util.List;

import sectorglass.make.Medium;
import sectorglass.make.VolumeKind;
import sectorglass.make.write.Block;
import sectorglass.make.write.ClusterRun;

/** The first allocation table while it grows, and its copy (Microsoft FAT specification, "FAT Data Structure"). */
final class FatTable {
    private static final int CHUNK = 1 << 16;

    private final Medium medium;
    private final VolumeKind kind;
    private final FatLayout layout;

    FatTable(Medium medium, VolumeKind kind, FatLayout layout, int media) throws IOException {
        this.medium = medium;
        this.kind = kind;
        this.layout = layout;
        set(0, 0x0FFFFF00L | media);
        set(1, end());
    }

    private long end() {
        return 0x0FFFFFFFL;
    }

    /** Links clusters to a chain. */
    void chain(List<ClusterRun> runs) throws IOException {
        for (int i = 0; i < runs.size(); i++) {
            ClusterRun run = runs.get(i);
            for (long cluster = run.first(); cluster < run.end() - 1; cluster++) {
                set(cluster, cluster + 1);
            }
            set(run.end() - 1, i + 1 < runs.size() ? runs.get(i + 1).first() : end());
        }
    }

    private void set(long cluster, long value) throws IOException {
        long base = layout.tableByte(0);
        switch (kind) {
            case FAT12 -> {
                Block two = new Block(medium.read(base + cluster * 3 / 2, 2));
                int old = two.u16(0);
                int bits = (int) value & 0xFFF;
                two.u16(0, cluster % 2 == 0 ? old & 0xF000 | bits : old & 0x000F | bits << 4);
                medium.write(base + cluster * 3 / 2, two.bytes());
            }
            case FAT16 -> medium.write(base + cluster * 2, new Block(2).u16(0, (int) value).bytes());
            default -> medium.write(base + cluster * 4, new Block(4).u32(0, value).bytes());
        }
    }

    /** Copies the first table to the second. */
    void mirror(int sectorSize) throws IOException {
        long from = layout.tableByte(0);
        long to = layout.tableByte(1);
        long bytes = layout.tableSectors() * sectorSize;
        byte[] zero = new byte[CHUNK];
        for (long at = 0; at < bytes; at += CHUNK) {
            byte[] chunk = medium.read(from + at, (int) Math.min(CHUNK, bytes - at));
            if (!java.util.Arrays.equals(chunk, 0, chunk.length, zero, 0, chunk.length)) {
                medium.write(to + at, chunk);
            }
        }
    }
}
