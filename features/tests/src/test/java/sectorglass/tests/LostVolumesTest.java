package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.Candidate;
import sectorglass.recovery.FoundState;
import sectorglass.recovery.FoundVolume;
import sectorglass.recovery.LostSearch;
import sectorglass.recovery.SearchResult;
import sectorglass.testkit.Tool;

/** Volumes made by the formatters of their file systems are found with exact start and size after their heads were destroyed. */
class LostVolumesTest {
    private static final int FAT16 = 3;
    private static final int FAT32 = 4;
    @TempDir
    static Path folder;
    private static MadeDisk made512;

    private static synchronized MadeDisk gpt() throws Exception {
        if (made512 == null) {
            made512 = MadeDisk.gpt(folder, 512);
        }
        return made512;
    }

    private static SearchResult search(MadeDisk disk) throws Exception {
        try (OpenImage image = Images.open(disk.file(), OpenOptions.DEFAULT.withSectorSize(disk.sectorSize()))) {
            return LostSearch.of(image, Progress.NONE);
        }
    }

    private static List<String> proven(SearchResult result) {
        return result.proven().stream().map(v -> v.kind() + " " + v.sectors(result.sectorSize()).map(r -> r.first() + "+" + r.count()).orElse("?")).toList();
    }

    private static List<String> made(List<MadeDisk.Made> volumes) {
        return volumes.stream().map(v -> v.kind() + " " + v.firstLba() + "+" + v.sectors()).toList();
    }

    private static void all(MadeDisk disk) throws Exception {
        assertEquals(made(disk.volumes()), proven(search(disk)), disk.file().getFileName().toString());
    }

    @Test
    void gptDestroyed() throws Exception {
        MadeDisk disk = gpt();
        long end = Files.size(disk.file()) / 512;
        all(disk);
        disk.destroyed(LostVolumesTest::all, 0, 1);
        disk.destroyed(LostVolumesTest::all, 1, 33);
        disk.destroyed(LostVolumesTest::all, end - 33, 33);
        disk.destroyed(LostVolumesTest::all, 0, 34, end - 33, 33);
    }

    @Test
    void firstSectorsOfVolumesDestroyed() throws Exception {
        MadeDisk disk = gpt();
        long[] heads = new long[6];
        int at = 0;
        for (MadeDisk.Made one : disk.without(FAT16, FAT32)) {
            heads[at++] = one.firstLba();
            heads[at++] = one.kind().equals("ext4") ? 8 : 1;
        }
        disk.destroyed(LostVolumesTest::all, heads);
        long[] withMap = java.util.Arrays.copyOf(heads, heads.length + 6);
        withMap[6] = disk.volumes().get(FAT32).firstLba();
        withMap[7] = 1;
        withMap[9] = 34;
        withMap[10] = Files.size(disk.file()) / 512 - 33;
        withMap[11] = 33;
        disk.destroyed(LostVolumesTest::all, withMap);
    }

    @Test
    void bothBootSectorsOfNtfsDestroyed() throws Exception {
        MadeDisk disk = gpt();
        MadeDisk.Made ntfs = disk.volumes().get(0);
        disk.destroyed(damaged -> {
            FoundVolume found = search(damaged).volumes().get(0);
            assertEquals("ntfs", found.kind());
            assertEquals(ntfs.firstLba() + "+" + ntfs.sectors(), found.sectors(512).map(r -> r.first() + "+" + r.count()).orElse("?"));
        }, 0, 34, ntfs.firstLba(), 1, ntfs.firstLba() + ntfs.sectors() - 1, 1, Files.size(disk.file()) / 512 - 33, 33);
    }

    @Test
    void sixteenBitFatWithoutBootSectorIsFoundByItsTables() throws Exception {
        MadeDisk disk = gpt();
        MadeDisk.Made fat = disk.volumes().get(FAT16);
        disk.destroyed(damaged -> {
            SearchResult result = search(damaged);
            assertTrue(result.volumes().stream().anyMatch(v -> v.kind().equals("fat16") && v.firstByte() == fat.firstLba() * 512),
                    proven(result).toString());
            assertEquals(made(disk.without(FAT16)), proven(result));
        }, 0, 34, fat.firstLba(), 1, Files.size(disk.file()) / 512 - 33, 33);
    }

    @Test
    void singleExtendedTablesDestroyed() throws Exception {
        MadeDisk disk = MadeDisk.mbr(folder);
        all(disk);
        for (int i = 1; i < disk.volumes().size(); i++) {
            disk.destroyed(LostVolumesTest::all, disk.volumes().get(i).firstLba() - 2048, 1);
        }
        disk.destroyed(damaged -> {
            all(damaged);
            SearchResult result = search(damaged);
            assertEquals(3, result.ofKind("ebr").size());
            assertTrue(result.ofKind("ebr").stream().allMatch(c -> c.state() == FoundState.PRESENT));
        }, 0, 1);
    }

    @Test
    void sectorsOf4096Bytes() throws Exception {
        MadeDisk disk = MadeDisk.gpt(folder, 4096);
        all(disk);
        disk.destroyed(LostVolumesTest::all, disk.volumes().get(0).firstLba(), 1, disk.volumes().get(2).firstLba(), 1,
                disk.volumes().get(FAT32).firstLba(), 1);
    }

    @Test
    void aVolumeInAFileIsPartOfTheFile() throws Exception {
        Tool.require("mcopy", "mkfs.fat", "mkfs.ext4");
        Path disk = MadeDisk.blank(folder.resolve("outer.img"), 100);
        Path inner = MadeDisk.blank(folder.resolve("stored.bin"), 20);
        Tool.run("mkfs.ext4", "-q", "-F", inner.toString()).ok();
        MadeDisk.Made outer = new MadeDisk.Made("fat32", 2048, 80 * 2048);
        MadeDisk.format(disk, outer, 512);
        Tool.run(Map.of("MTOOLS_SKIP_CHECK", "1"), null, 60, "mcopy", "-i", disk + "@@1048576", inner.toString(), "::stored.bin").ok();
        SearchResult result = search(new MadeDisk(disk, 512, List.of(outer)));
        assertEquals(List.of("fat32 2048+163840"), proven(result));
        FoundVolume within = result.volumes().stream().filter(v -> v.kind().equals("ext4")).findFirst().orElseThrow();
        assertEquals(FoundState.IN_FILE, within.state());
        assertEquals("stored.bin", within.file().path());
        assertFalse(within.proven());
        for (Candidate candidate : result.ofKind("ext4")) {
            assertEquals("stored.bin", candidate.file().path());
            assertEquals(candidate.where().start() - within.firstByte(), candidate.file().offset());
        }
    }

    @Test
    void aFormerFormatIsALeftover() throws Exception {
        Tool.require("sfdisk", "mkfs.fat", "mkfs.ext4");
        Path disk = MadeDisk.blank(folder.resolve("twice.img"), 150);
        MadeDisk.format(disk, new MadeDisk.Made("ext4", 2048, 120 * 2048), 512);
        List<MadeDisk.Made> now = List.of(new MadeDisk.Made("fat16", 2048, 40 * 2048), new MadeDisk.Made("ntfs", 2048 + 40 * 2048, 60 * 2048));
        for (MadeDisk.Made one : now) {
            MadeDisk.format(disk, one, 512);
        }
        SearchResult result = search(new MadeDisk(disk, 512, now));
        assertEquals(made(now), proven(result));
        FoundVolume former = result.volumes().stream().filter(v -> v.kind().equals("ext4")).findFirst().orElseThrow();
        assertEquals(FoundState.LEFTOVER, former.state());
        assertEquals(2048L * 512, former.firstByte());
        assertEquals(120L << 20, former.partitionBytes());
        assertFalse(former.overwritten().isEmpty());
    }

    @Test
    void unreadPlacesAreCountedAndNeverNothing() throws Exception {
        MadeDisk disk = gpt();
        MadeDisk.Made ntfs = disk.volumes().get(0);
        SectorRanges hidden = SectorRanges.of(ntfs.firstLba(), ntfs.sectors());
        disk.destroyed(damaged -> {
            try (OpenImage image = Images.open(damaged.file())) {
                SearchResult result = LostSearch.of(MaskedImage.unread(image, hidden, MaskedImage.Filling.noise(7)), Progress.NONE);
                assertEquals(made(disk.without(0)), proven(result));
                assertEquals(ntfs.sectors(), result.unreadSectors());
                assertEquals(hidden, result.unreadRanges());
                assertTrue(result.remarks().stream().anyMatch(r -> r.key().equals("unread")));
            }
        }, 0, 34, Files.size(disk.file()) / 512 - 33, 33);
    }

    @Test
    void aDiskThatLostItsFrontIsFoundWithItsStartsMoved() throws Exception {
        MadeDisk disk = gpt();
        byte[] bytes = Files.readAllBytes(disk.file());
        Path late = folder.resolve("late.img");
        Files.write(late, java.util.Arrays.copyOfRange(bytes, 1000 * 512, bytes.length));
        SearchResult result = search(new MadeDisk(late, 512, disk.volumes()));
        List<MadeDisk.Made> moved = new ArrayList<>();
        disk.volumes().forEach(v -> moved.add(new MadeDisk.Made(v.kind(), v.firstLba() - 1000, v.sectors())));
        assertEquals(made(moved), proven(result));
    }
}
