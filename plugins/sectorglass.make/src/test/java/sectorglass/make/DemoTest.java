package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.EnumMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

import sectorglass.testkit.Tool;

class DemoTest {
    private static final Map<Demo.Variant, Demo.Written> WRITTEN = new EnumMap<>(Demo.Variant.class);

    @TempDir
    private static Path shared;

    @TempDir
    private Path folder;

    /** Each variant is written once and then only read. */
    private static Demo.Written written(Demo.Variant variant) throws IOException {
        if (!WRITTEN.containsKey(variant)) {
            WRITTEN.put(variant, Demo.write(shared, variant));
        }
        return WRITTEN.get(variant);
    }

    @ParameterizedTest
    @EnumSource(names = {"GPT_SOUND", "MBR_SOUND"})
    void theSoundVariantsAreSoundToEveryChecker(Demo.Variant variant) throws IOException {
        Demo.Written written = written(variant);
        assertEquals(List.of(), written.faults());
        String verdict = Tool.run("sfdisk", "-V", written.image().toString()).ok();
        assertTrue(verdict.contains("No errors detected.") && !verdict.contains("not in disk order"), verdict);
        int volumes = 0;
        for (MadeVolume volume : written.disk().volumes()) {
            if (volume != null) {
                Soundness.assertSound(volume.kind(), Soundness.cut(written.image(), volume, folder.resolve("volume.img")));
                volumes++;
            }
        }
        assertEquals(4, volumes);
    }

    @ParameterizedTest
    @CsvSource({"GPT, GPT_SOUND", "MBR, MBR_SOUND"})
    void faultsChangeNothingButTheirPlaces(Demo.Variant damaged, Demo.Variant sound) throws IOException {
        Demo.Written written = written(damaged);
        assertTrue(written.faults().size() >= 8, written.faults().toString());
        Path other = written(sound).image();
        try (var a = java.nio.channels.FileChannel.open(written.image()); var b = java.nio.channels.FileChannel.open(other)) {
            for (PlantedFault fault : written.faults()) {
                assertTrue(differs(a, b, fault.firstByte(), fault.length()), fault.toString());
            }
        }
        String listed = Tool.run("cmp", "-l", written.image().toString(), other.toString()).out();
        long changed = listed.lines().count();
        long planted = written.faults().stream().mapToInt(PlantedFault::length).sum();
        // the hidden sectors are changed in the backup too, which is the witness of another fault
        assertTrue(changed <= planted + 4, changed + " bytes changed, " + planted + " told of");
    }

    private static boolean differs(java.nio.channels.FileChannel a, java.nio.channels.FileChannel b, long at, int length)
            throws IOException {
        java.nio.ByteBuffer left = java.nio.ByteBuffer.allocate(length);
        java.nio.ByteBuffer right = java.nio.ByteBuffer.allocate(length);
        a.read(left, at);
        b.read(right, at);
        return left.flip().mismatch(right.flip()) >= 0;
    }

    @Test
    void theCheckersOfTheSystemSeeTheFaultsTheyKnow() throws IOException {
        Demo.Written written = written(Demo.Variant.GPT);
        assertTrue(Tool.run("sfdisk", "-V", written.image().toString()).out().contains("primary GPT table is corrupt"));
        Path cut = folder.resolve("volume.img");
        Tool.Result tables = Soundness.check(VolumeKind.FAT16, Soundness.cut(written.image(), volume(written, VolumeKind.FAT16), cut));
        assertTrue(tables.status() == 1 && tables.out().contains("FATs differ"), tables.out());
        Tool.Result count = Soundness.check(VolumeKind.FAT32, Soundness.cut(written.image(), volume(written, VolumeKind.FAT32), cut));
        assertTrue(count.status() == 1 && count.out().contains("4660") && !count.out().contains("differ"), count.out());
        Tool.Result exfat = Soundness.check(VolumeKind.EXFAT, Soundness.cut(written.image(), volume(written, VolumeKind.EXFAT), cut));
        assertTrue(exfat.status() == 4 && exfat.out().contains("checksum of a file is wrong"), exfat.out());
        Tool.Result ntfs = Soundness.check(VolumeKind.NTFS, Soundness.cut(written.image(), volume(written, VolumeKind.NTFS), cut));
        assertNotEquals(0, ntfs.status(), ntfs.out());
    }

    private static MadeVolume volume(Demo.Written written, VolumeKind kind) {
        return DemoDisk.volume(written.disk(), kind);
    }

    @Test
    void theReadMapCoversTheDiskAndTheFillerStandsWhereItSaysFailedOrSkipped() throws IOException {
        Demo.Written written = written(Demo.Variant.PARTLY_READ);
        List<String> lines = Files.readAllLines(written.readMap());
        assertEquals("first_lba,sectors,state", lines.get(0));
        long next = 0;
        try (SparseFile image = SparseFile.open(written.image())) {
            for (String line : lines.subList(1, lines.size())) {
                String[] parts = line.split(",");
                assertEquals(next, Long.parseLong(parts[0]), line);
                next += Long.parseLong(parts[1]);
                String first = new String(image.read(Long.parseLong(parts[0]) * 512, 8), StandardCharsets.US_ASCII);
                boolean filler = parts[2].equals("failed") || parts[2].equals("skipped");
                assertEquals(filler, first.equals("NOT READ"), line);
            }
            assertEquals(image.bytes() / 512, next);
        }
        assertTrue(lines.stream().filter(l -> l.endsWith("failed")).count() >= 8, lines.toString());
        assertTrue(lines.get(lines.size() - 1).endsWith("unread"), lines.toString());
    }

    @ParameterizedTest
    @CsvSource({
        "GPT, c77c326331aa41d58bafdb16527cc77437b07cff5c7dfc7c6ecacfb95b9b6684",
        "MBR, 83fa9266179b872175f5667b5ae0c9434e95f32ae635de8e156b50e7ef57dbfd",
        "PARTLY_READ, dc6cf0119f18d03fa1414d19f7bb8c9bf5f11dcaf8694d016e0455f69ddcd0e1"})
    void theBytesAreTheSameOnEveryMachine(Demo.Variant variant, String sha256) throws Exception {
        // taken from the first run; a change of the demo disk must be meant, and is made here too
        Demo.Written written = written(variant);
        MessageDigest digest = MessageDigest.getInstance("SHA-256");
        byte[] chunk = new byte[1 << 20];
        try (InputStream in = Files.newInputStream(written.image())) {
            for (int n = in.read(chunk); n > 0; n = in.read(chunk)) {
                digest.update(chunk, 0, n);
            }
        }
        assertEquals(sha256, HexFormat.of().formatHex(digest.digest()));
    }

    @Test
    void mainWritesWhatIsAskedForAndTellsItsNames() throws IOException {
        Demo.main(folder.toString(), "gpt-sound");
        assertTrue(Files.exists(folder.resolve("demo-gpt-sound.img")));
        assertTrue(Files.notExists(folder.resolve("demo-gpt.img")));
    }
}
