package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Level;
import sectorglass.disk.ReadOrder;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** Images made to harm: nothing throws, hangs or grows without bounds. */
class HostileTest {
    private static final long RECORD_65 = 16384 + 65 * 1024;

    @TempDir
    static Path folder;

    /** Everything the product does with a volume; bounded reads of every stream. */
    static int use(MemoryImage image) {
        var claim = new NtfsProvider().recognise(new VolumeSite(image, image.all(), null));
        if (claim.isEmpty()) {
            return 0;
        }
        NtfsVolume volume = (NtfsVolume) new NtfsProvider().open(claim.get());
        volume.info();
        volume.roles();
        volume.witnesses();
        volume.structures().forEach(s -> s.reader().read(image));
        Volumes.verify(image, Level.FULL);
        Files files = volume.capability(Files.class).orElseThrow();
        FileTree tree = files.tree(Progress.NONE);
        byte[] buffer = new byte[1 << 16];
        int[] seen = {0};
        tree.walk(tree.root(), (entry, depth) -> {
            seen[0]++;
            tree.path(entry);
            for (var stream : tree.entry(entry).streams()) {
                Content content = files.content(entry, stream.name());
                if (content != null) {
                    content.state();
                    content.doubts();
                    for (long at = 0; at < Math.min(content.bytes(), 1 << 18); at += buffer.length) {
                        content.read(at, buffer, 0, (int) Math.min(buffer.length, content.bytes() - at));
                    }
                }
            }
            return true;
        });
        assertEquals(tree.size(), seen[0], "every entry hangs below the root");
        Allocation allocation = volume.capability(Allocation.class).orElseThrow();
        allocation.metadata();
        allocation.owners(new SectorRange(32, 64), Progress.NONE);
        volume.capability(ReadOrder.class).orElseThrow().stages(Progress.NONE);
        return seen[0];
    }

    private static void survive(MemoryImage image) {
        assertTimeoutPreemptively(Duration.ofSeconds(20), () -> use(image));
    }

    private static MemoryImage files() throws IOException {
        return MemoryImage.of(Volumes.withFiles(folder));
    }

    @Test
    void lengthsAndRunsThatLie() throws IOException {
        MemoryImage image = files();
        survive(image.with(RECORD_65 + 0x3C, 0, 0, 0, 0));
        survive(image.with(RECORD_65 + 344 + 64, 0x88, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x7F, 1, 0, 0, 0, 0, 0, 0, 0, 0));
        survive(image.with(RECORD_65 + 344 + 40, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x7F, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x7F,
                0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x7F));
        survive(image.with(0x28, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x7F));
        survive(image.with(0x30, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x7F));
    }

    /** Record 65 compressed with a claim of 2^62 bytes. */
    @Test
    void aCompressedStreamThatClaimsToBeEndless() throws IOException {
        survive(files().with(RECORD_65 + 344 + 12, 1, 0).with(RECORD_65 + 344 + 0x22, 4)
                .with(RECORD_65 + 344 + 0x28, 0, 0, 0, 0, 0, 0, 0, 0x40, 0, 0, 0, 0, 0, 0, 0, 0x40, 0, 0, 0, 0, 0, 0, 0, 0x40));
    }

    /** Sizes near 2^63, with and without compression, and runs that begin near 2^58: pieces follow each other to the end. */
    @Test
    void sizesNearTheEndOfNumbersGivePiecesWithoutGaps() {
        Geometry geometry = new Geometry(0, 512, 512, 1024, 4096, 62_078_421_045L, 4, 2, 0);
        byte[] runs = {0x02, 0x10, 0x01, 0x21, 0x10, 0x18, 0x32, 0x01, 0x11, 0};
        for (long lowest : new long[] {0, 7, 339_797_349_549_023_048L, Long.MAX_VALUE >> 1}) {
            for (int variant = 0; variant < 5; variant++) {
                FileStream stream = new FileStream(AttributeType.DATA, "");
                stream.sized = variant < 2 || variant == 4;
                stream.flags = variant % 2 == 0 ? 0 : FileStream.COMPRESSED;
                stream.unit = 4;
                stream.real = variant == 4 ? 3000 : Long.MAX_VALUE; // shorter than where its runs begin
                stream.allocated = Long.MAX_VALUE;
                stream.initialised = Long.MAX_VALUE;
                FixedBlock block = new FixedBlock();
                block.begin(java.util.Arrays.copyOf(runs, 32), 0, 32);
                stream.runs.add(block, 0, runs.length, lowest);
                long at = 0;
                for (sectorglass.disk.Extent extent : StreamExtents.of(geometry, stream)) {
                    assertEquals(at, extent.offset(), "lowest " + lowest + ", variant " + variant);
                    assertTrue(extent.length() > 0, "lowest " + lowest + ", variant " + variant);
                    at = extent.end();
                }
                assertTrue(!stream.sized || at == stream.real, "lowest " + lowest + ", variant " + variant + " ends at " + at);
            }
        }
    }

    @Test
    void aFolderThatIsItsOwnParent() throws IOException {
        // record 65 becomes a folder whose parent is itself
        MemoryImage image = files().with(RECORD_65 + 0x16, 3).with(RECORD_65 + 152, 65, 0, 0, 0, 0, 0, 1, 0);
        survive(image);
        FileTree tree = Volumes.open(image).capability(Files.class).orElseThrow().tree(Progress.NONE);
        assertEquals("Without a folder/data.bin", tree.path(tree.withNumber(65).get(0)));
        assertTrue(Volumes.verify(image, Level.FULL).listed().stream().anyMatch(f -> f.check().equals("ntfs.parent-cycle")));
    }

    @Test
    void aNameWithSlashesAndEscapes() throws IOException {
        // "data.bin" becomes "../\e[31m": 8 characters
        int[] name = {'.', 0, '.', 0, '/', 0, 0x1B, 0, '[', 0, '3', 0, '1', 0, 'm', 0};
        MemoryImage image = files().with(RECORD_65 + 152 + 0x42, name);
        FileTree tree = Volumes.open(image).capability(Files.class).orElseThrow().tree(Progress.NONE);
        String path = tree.path(tree.withNumber(65).get(0));
        assertEquals("..\\u{2F}\\u{1B}[31m", path);
        assertEquals(tree.withNumber(65).get(0), tree.find(path).orElseThrow());
        survive(image);
    }

    /** An attribute list of a million bytes of which every entry leads back to its own record. */
    @Test
    void anAttributeListThatLeadsToItself() throws IOException {
        MemoryImage image = files();
        byte[] bytes = image.bytes.clone();
        int list = 12000 * 4096;
        for (int at = list; at + 32 <= list + (1 << 20); at += 32) {
            bytes[at] = (byte) 0x80;
            bytes[at + 4] = 32;
            bytes[at + 7] = 0x1A;
            bytes[at + 0x10] = (byte) (at % 3 == 0 ? 65 : 66);
            bytes[at + 0x16] = 1;
        }
        int attribute = (int) RECORD_65 + 344; // the $DATA attribute becomes the list
        bytes[attribute] = 0x20;
        byte[] runs = {0x22, 0, 1, (byte) (12000 & 0xFF), 12000 >> 8, 0};
        System.arraycopy(runs, 0, bytes, attribute + 64, runs.length);
        for (int field : new int[] {0x28, 0x30, 0x38}) {
            bytes[attribute + field + 2] = 0x10;
            bytes[attribute + field] = 0;
            bytes[attribute + field + 1] = 0;
        }
        survive(MemoryImage.of(bytes));
    }

    @Test
    void anyBytesChangedAnywhereInTheMetadata() throws IOException {
        Path small = folder.resolve("small-volume.img");
        Volumes.make(small, 4 << 20, 512, 512);
        byte[] sound = MemoryImage.of(small).bytes;
        NtfsVolume volume = Volumes.open(MemoryImage.of(sound));
        var metadata = volume.capability(Allocation.class).orElseThrow().metadata();
        Random random = new Random(11);
        assertTimeoutPreemptively(Duration.ofSeconds(60), () -> {
            for (int round = 0; round < 150; round++) {
                byte[] bytes = sound.clone();
                for (int i = 0; i < 1 + round % 40; i++) {
                    SectorRange run = metadata.run(random.nextInt(Math.min(4, metadata.runs())));
                    long at = (run.first() + (long) (random.nextDouble() * random.nextDouble() * run.count())) * 512 + random.nextInt(512);
                    bytes[(int) at] = (byte) (random.nextInt(4) == 0 ? 0xFF : random.nextInt());
                }
                use(MemoryImage.of(bytes));
            }
        });
    }

    @Test
    void anySectorsUnread() throws IOException {
        MemoryImage image = files();
        Random random = new Random(5);
        assertTimeoutPreemptively(Duration.ofSeconds(60), () -> {
            for (int round = 0; round < 25; round++) {
                SectorRanges unread = SectorRanges.EMPTY;
                for (int i = 0; i < 1 + round; i++) {
                    long[] starts = {0, 32 + random.nextInt(150), 2050 * 8 + random.nextInt(900), 8191 * 8 + random.nextInt(40), 131071};
                    unread = unread.union(SectorRanges.of(starts[random.nextInt(starts.length)], 1 + random.nextInt(2)));
                }
                use(image.without(unread.intersect(image.all())));
            }
        });
    }
}
