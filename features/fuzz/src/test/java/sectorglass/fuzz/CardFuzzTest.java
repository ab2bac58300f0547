package sectorglass.fuzz;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.management.ManagementFactory;
import java.util.List;
import java.util.Locale;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;

import sectorglass.disk.VolumeProvider;
import sectorglass.image.Providers;
import sectorglass.make.VolumeKind;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.VolumeExercise;
import sectorglass.verify.RuleBook;

/** FAT and exFAT volumes with bytes changed and sectors unread: whole check, tree, content, allocation; nothing throws, nothing hangs. */
class CardFuzzTest {
    /** Processor time that one small volume may take. */
    private static final long MOST_NANOS = 10_000_000_000L;
    private static final RuleBook RULES = RuleBook.ofProviders(Locale.ENGLISH);
    private static final VolumeProvider FAT = provider("fat12");
    private static final VolumeProvider EXFAT = provider("exfat");
    private static final byte[] FAT12 = SmallVolumes.make(VolumeKind.FAT12, 2880, 1024);
    private static final byte[] FAT16 = SmallVolumes.make(VolumeKind.FAT16, 9000, 1024);
    private static final byte[] FAT32 = SmallVolumes.make(VolumeKind.FAT32, 67_000, 512);
    private static final byte[] CARD = SmallVolumes.make(VolumeKind.EXFAT, 8192, 4096);

    private static VolumeProvider provider(String kind) {
        return Providers.all(VolumeProvider.class).stream().filter(p -> p.kinds().contains(kind)).findFirst().orElseThrow();
    }

    /** Boot sector and what is reserved with it. */
    @FuzzTest(maxDuration = "60s")
    void fatBootSectors(FuzzedDataProvider data) {
        byte[] volume = data.pickValue(List.of(FAT12, FAT16, FAT32));
        damage(FAT, volume, data, 0, 0, Math.min(volume.length, 8 * 512));
    }

    /** The tables, both copies. */
    @FuzzTest(maxDuration = "60s")
    void fatTables(FuzzedDataProvider data) {
        byte[] volume = data.pickValue(List.of(FAT12, FAT16, FAT32));
        long first = le(volume, 14, 2) * 512;
        long size = Math.max(le(volume, 22, 2), le(volume, 22, 2) == 0 ? le(volume, 36, 4) : 0) * 512;
        damage(FAT, volume, data, first, first + size, 512);
    }

    /** Root directory, folders, long names. */
    @FuzzTest(maxDuration = "60s")
    void fatDirectories(FuzzedDataProvider data) {
        byte[] volume = data.pickValue(List.of(FAT12, FAT16, FAT32));
        long tables = le(volume, 14, 2) + 2 * (le(volume, 22, 2) == 0 ? le(volume, 36, 4) : le(volume, 22, 2));
        damage(FAT, volume, data, tables * 512, tables * 512, 24 * 512);
    }

    /** Boot regions; the checksums are not made right: what they guard is asked all the same. */
    @FuzzTest(maxDuration = "60s")
    void exfatBootRegions(FuzzedDataProvider data) {
        damage(EXFAT, CARD, data, 0, 12 * 512, 128);
    }

    /** FAT, allocation bitmap and up-case table. */
    @FuzzTest(maxDuration = "60s")
    void exfatTables(FuzzedDataProvider data) {
        damage(EXFAT, CARD, data, le(CARD, 80, 4) * 512, le(CARD, 88, 4) * 512, 512);
    }

    /** Entry sets of the root directory and of folders. */
    @FuzzTest(maxDuration = "60s")
    void exfatSets(FuzzedDataProvider data) {
        long heap = le(CARD, 88, 4) * 512;
        damage(EXFAT, CARD, data, heap + (le(CARD, 96, 4) - 2) * 4096, heap + (le(CARD, 96, 4) - 1) * 4096, 3 * 4096);
    }

    /** Changes bytes from either of two places on, loses sectors, and asks everything. */
    private static void damage(VolumeProvider provider, byte[] volume, FuzzedDataProvider data, long one, long other, int length) {
        DiskFile image = DiskFile.of(volume, 512);
        int lost = data.consumeInt(0, 3);
        for (int i = 0; i < lost; i++) {
            image.lose((data.consumeBoolean() ? one : other) / 512 + data.consumeInt(0, length / 512), data.consumeInt(1, 4));
        }
        while (data.remainingBytes() > 4) {
            long at = (data.consumeBoolean() ? one : other) + data.consumeInt(0, length - 1);
            if (at >= volume.length) {
                continue;
            }
            switch (data.consumeInt(0, 2)) {
                case 0 -> image.plant(at, data.consumeByte() & 0xFF);
                case 1 -> image.plant16(at & ~1L, data.consumeShort());
                default -> image.plant32(at & ~3L, data.consumeInt());
            }
        }
        long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        VolumeExercise.run(provider, RULES, image);
        long spent = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before;
        assertTrue(spent < MOST_NANOS, () -> "took " + spent / 1_000_000 + " ms");
    }

    private static long le(byte[] bytes, int at, int width) {
        long value = 0;
        for (int i = width - 1; i >= 0; i--) {
            value = value << 8 | bytes[at + i] & 0xFF;
        }
        return value;
    }
}
