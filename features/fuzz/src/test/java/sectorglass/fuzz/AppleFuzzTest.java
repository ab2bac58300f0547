package sectorglass.fuzz;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;

import sectorglass.disk.VolumeProvider;
import sectorglass.image.Providers;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.ApfsMaker;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.HfsPlusMaker;
import sectorglass.testvolumes.VolumeExercise;
import sectorglass.verify.RuleBook;

/** HFS+ and APFS volumes with bytes changed and sectors unread: whole check, tree, content, allocation, plan; nothing throws, nothing hangs. */
class AppleFuzzTest {
    /** Processor time that one small volume may take. */
    private static final long MOST_NANOS = 10_000_000_000L;
    private static final int MOST_EDITS = 16;
    private static final RuleBook RULES = RuleBook.ofProviders(Locale.ENGLISH);
    private static final VolumeProvider HFS = provider("hfsplus");
    private static final VolumeProvider APFS = provider("apfs");
    private static final int BLOCK = 4096;
    private static byte[] volume;
    private static Path container;

    private static VolumeProvider provider(String kind) {
        return Providers.all(VolumeProvider.class).stream().filter(p -> p.kinds().contains(kind)).findFirst().orElseThrow();
    }

    private static byte[] hfs() {
        if (volume == null) {
            HfsPlusMaker maker = new HfsPlusMaker("HX", 512, 4096, 4096, "fuzz");
            int docs = maker.folder(HfsPlusMaker.ROOT, "docs");
            int links = maker.folder(HfsPlusMaker.ROOT, "\0\0\0\0HFS+ Private Data");
            maker.file(links, "iNode5", new byte[700], new byte[0], "????????", 2, 0100644, 0);
            maker.file(docs, "link", new byte[0], new byte[0], "hlnkhfs+", 5, 0100444, 0);
            maker.pieces(1).file(docs, "pieces", new byte[12000], new byte[9000], "TEXTttxt", 0, 0100644, 0);
            maker.pieces(Integer.MAX_VALUE);
            int packed = maker.file(docs, "packed", new byte[0], new byte[2000], "????????", 0, 0100644, 0x20);
            maker.attribute(packed, "com.apple.decmpfs", header(0x636D7066, 4, 70000));
            maker.attributeFork(docs, "org.example.long", new byte[3000]);
            for (int i = 0; i < 40; i++) {
                maker.file(docs, "a file with a long name and the number " + i, new byte[i]);
            }
            maker.journal(16384, false);
            volume = maker.write();
        }
        return volume;
    }

    private static byte[] header(int magic, int type, long bytes) {
        return ByteBuffer.allocate(16).order(ByteOrder.LITTLE_ENDIAN).putInt(magic).putInt(type).putLong(bytes).array();
    }

    private static Path apfs() {
        if (container == null) {
            try {
                Path file = Files.createTempFile("fuzz", ".img");
                file.toFile().deleteOnExit();
                try (RandomAccessFile raw = new RandomAccessFile(file.toFile(), "rw")) {
                    raw.setLength(256L << 20);
                }
                Tool.run("mkapfs", "-L", "FUZZ", file.toString()).ok();
                try (ApfsMaker maker = new ApfsMaker(file)) {
                    long docs = maker.folder(ApfsMaker.ROOT, "docs");
                    maker.linked(docs, "one", ApfsMaker.ROOT, "two", new byte[100]);
                    maker.file(docs, "hole", new byte[9000], 2, 0);
                    maker.symbolicLink(docs, "symbolic", "/docs");
                    long packed = maker.file(docs, "packed", new byte[0], 0, 0x20);
                    maker.attribute(packed, "com.apple.decmpfs", header(0, 4, 70000), 0);
                    maker.attributeStream(packed, "com.apple.ResourceFork", new byte[5000]);
                    for (int i = 0; i < 40; i++) {
                        maker.file(docs, "file number " + i, new byte[i]);
                    }
                }
                container = file;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return container;
    }

    private static void exercise(VolumeProvider provider, DiskFile image) {
        long begun = ManagementFactory.getThreadMXBean().isCurrentThreadCpuTimeSupported()
                ? ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() : 0;
        VolumeExercise.run(provider, RULES, image);
        assertTrue(ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - begun < MOST_NANOS, "a small volume took more than ten seconds");
    }

    /** Header, trees, allocation file and journal. */
    @FuzzTest(maxDuration = "10m")
    void hfsPlusVolumes(FuzzedDataProvider data) {
        byte[] bytes = hfs().clone();
        ByteBuffer w = ByteBuffer.wrap(bytes);
        int[] starts = {1024, bytes.length - 1024, 0, 0, 0, 0, w.getInt(1024 + 12) * 512};
        int[] lengths = {512, 512, 512, 8192, 0, 8192, 64};
        for (int i = 0; i < 4; i++) {
            starts[2 + i] = w.getInt(1024 + 112 + 80 * i + 16) * 512;
        }
        lengths[4] = (int) w.getLong(1024 + 272);
        SectorRanges unread = SectorRanges.EMPTY;
        for (int i = data.consumeInt(0, 2); i > 0; i--) {
            int place = data.consumeInt(0, starts.length - 1);
            unread = unread.union(SectorRanges.of((starts[place] + data.consumeInt(0, lengths[place] - 1)) / 512, 1));
        }
        for (int i = 0; i < MOST_EDITS && data.remainingBytes() > 3; i++) {
            int place = data.consumeInt(0, starts.length - 1);
            int at = starts[place] + data.consumeInt(0, lengths[place] - 1);
            byte[] value = data.consumeBytes(data.consumeInt(1, 16));
            System.arraycopy(value, 0, bytes, at, Math.min(value.length, bytes.length - at));
        }
        exercise(HFS, DiskFile.of(bytes).unread(unread));
    }

    /** Superblocks, space manager, object maps and file tree, mostly with checksums made right again. */
    @FuzzTest(maxDuration = "10m")
    void apfsContainers(FuzzedDataProvider data) {
        try (DiskFile image = DiskFile.of(apfs())) {
            long[] blocks = {0, 1, 2, 66, 20000, 20001, 20002, 20003, 20004, 20005, 20006, 21017, 22050, 22051, 22052, 22053, 22054, 22055};
            SectorRanges unread = SectorRanges.EMPTY;
            for (int i = data.consumeInt(0, 2); i > 0; i--) {
                unread = unread.union(SectorRanges.of(data.pickValue(blocks) * 8 + data.consumeInt(0, 7), 1));
            }
            boolean right = data.consumeInt(0, 3) > 0;
            Map<Long, byte[]> changed = new TreeMap<>();
            for (int i = 0; i < MOST_EDITS && data.remainingBytes() > 3; i++) {
                byte[] block = changed.computeIfAbsent(data.pickValue(blocks), at -> image.window(at * BLOCK, BLOCK).bytes(0, BLOCK));
                int at = data.consumeBoolean() ? data.consumeInt(32, 256) : data.consumeInt(32, BLOCK - 1);
                byte[] value = data.consumeBytes(data.consumeInt(1, 16));
                System.arraycopy(value, 0, block, at, Math.min(value.length, BLOCK - at));
            }
            DiskFile damaged = image.unread(unread);
            changed.forEach((at, block) -> {
                if (right) {
                    ByteBuffer.wrap(block).order(ByteOrder.LITTLE_ENDIAN).putLong(0, ApfsMaker.sum(block));
                }
                int[] values = new int[BLOCK];
                for (int i = 0; i < BLOCK; i++) {
                    values[i] = block[i] & 0xFF;
                }
                damaged.plant(at * BLOCK, values);
            });
            exercise(APFS, damaged);
        }
    }
}
