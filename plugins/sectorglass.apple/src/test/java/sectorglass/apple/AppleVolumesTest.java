package sectorglass.apple;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;
import sectorglass.testvolumes.Specs;

/** HFS+ as xorrisofs writes it, HFS as hformat, APFS as mkapfs; the checksum by its vectors; one flipped bit is one finding. */
class AppleVolumesTest {
    @TempDir
    static Path folder;

    private static byte[] hfsPlus() throws IOException {
        Path file = folder.resolve("hfsp.img");
        if (!Files.exists(file)) {
            Path source = Files.createDirectories(folder.resolve("t").resolve("docs")).getParent();
            Files.writeString(source.resolve("hello.txt"), "hello, world\n");
            Files.write(source.resolve("docs/big.bin"), new byte[200000]);
            Tool.run("xorrisofs", "-quiet", "-hfsplus", "-V", "TESTVOL", "-o", file.toString(), source.toString()).ok();
        }
        // the HFS+ partition starts at byte 65536; blocks of 2048, their number stands at 1024 + 44
        byte[] all = Files.readAllBytes(file);
        int blocks = ByteBuffer.wrap(all).getInt(65536 + 1024 + 44);
        return Arrays.copyOfRange(all, 65536, 65536 + blocks * 2048);
    }

    private static Path apfs() throws IOException {
        Path file = folder.resolve("apfs.img");
        if (!Files.exists(file)) {
            try (RandomAccessFile raw = new RandomAccessFile(file.toFile(), "rw")) {
                raw.setLength(256L << 20);
            }
            Tool.run("mkapfs", "-U", "11111111-2222-4333-8444-555555555555", "-u", "66666666-7777-4888-8999-aaaaaaaaaaaa", "-L", "TESTVOL",
                    file.toString()).ok();
        }
        return file;
    }

    @Test
    void fletcher() {
        ByteBuffer words = ByteBuffer.allocate(16).order(ByteOrder.LITTLE_ENDIAN).putInt(1).putInt(2).putInt(3).putInt(4);
        assertEquals(0x00000014FFFFFFE1L, ApfsObject.sum(words.array()));
        byte[] rising = new byte[32];
        for (int i = 0; i < 32; i++) {
            rising[i] = (byte) i;
        }
        assertEquals(0xBD997551B9E6123DL, ApfsObject.sum(rising));
        assertEquals(-1L, ApfsObject.sum(new byte[4088]));
        byte[] ones = new byte[16];
        Arrays.fill(ones, (byte) 0xFF);
        assertEquals(-1L, ApfsObject.sum(ones));
    }

    @Test
    void soundHfsPlus() throws IOException {
        Judged judged = Judged.full(DiskFile.of(hfsPlus()));
        // xorrisofs marks a block of its ISO 9660 part as used, which no file of the HFS+ part owns
        assertEquals(List.of("hfs.bitmap.leaked"), judged.failed(), judged.text());
        assertEquals("TESTVOL", judged.volume().info().label());
        assertEquals("hfsplus", judged.volume().info().kind());
        for (String rule : List.of("hfs.vh.equal-alternate", "hfs.vh.counts", "hfs.catalog.valence", "hfs.bitmap.free-count",
                "hfs.btree.map")) {
            assertTrue(judged.passed(rule), rule);
        }
        List<String> problems = new ArrayList<>();
        assertEquals(3, Math.min(3, Specs.decode(judged.volume(), problems)));
        assertEquals(List.of(), problems);
    }

    @Test
    void filesOfHfsPlus() throws IOException {
        var files = Judged.open(DiskFile.of(hfsPlus())).orElseThrow().capability(sectorglass.disk.Files.class).orElseThrow();
        var tree = files.tree(sectorglass.image.Progress.NONE);
        assertEquals(-1, tree.withoutFolder());
        var hello = files.content(tree.find("hello.txt").orElseThrow(), "");
        byte[] text = new byte[13];
        assertEquals(List.of(), hello.read(0, text, 0, 13));
        assertEquals("hello, world\n", new String(text, java.nio.charset.StandardCharsets.US_ASCII));
        int big = tree.find("docs/big.bin").orElseThrow();
        assertEquals(200000, tree.bytes(big));
        assertEquals(200000, files.content(big, "").readBytes());
        assertEquals("docs/big.bin", tree.entry(big).path());
    }

    @Test
    void soundApfs() throws IOException {
        try (DiskFile image = DiskFile.of(apfs())) {
            Judged judged = Judged.full(image);
            assertEquals("", judged.text());
            assertEquals("11111111-2222-4333-8444-555555555555", judged.volume().info().uuid());
            assertEquals(256L << 20, judged.volume().info().bytes());
            assertTrue(judged.volume().info().remarks().toString().contains("volume \"TESTVOL\""));
            assertEquals((65536L - 59534) * 4096, judged.volume().info().usedBytes());
            for (String rule : List.of("apfs.nx.latest", "apfs.vol.reachable", "apfs.space.free-sum", "apfs.obj.identity")) {
                assertTrue(judged.passed(rule), rule);
            }
            List<String> problems = new ArrayList<>();
            assertTrue(Specs.decode(judged.volume(), problems) > 3);
            assertEquals(List.of(), problems);
        }
    }

    @Test
    void soundHfs() throws IOException {
        Path file = folder.resolve("hfs.img");
        try (RandomAccessFile raw = new RandomAccessFile(file.toFile(), "rw")) {
            raw.setLength(2 << 20);
        }
        Tool.run("hformat", "-f", "-l", "TESTVOL", file.toString()).ok();
        try (DiskFile image = DiskFile.of(file)) {
            var volume = Judged.open(image).orElseThrow();
            assertEquals("hfs", volume.info().kind());
            assertEquals("TESTVOL", volume.info().label());
            // 62 of 4090 allocation blocks of 512 bytes are in use
            assertEquals(62L * 512, volume.info().usedBytes());
        }
    }

    @ParameterizedTest
    @CsvSource({"4100, apfs.obj.checksum", "8300, apfs.obj.checksum", "81920100, apfs.obj.checksum", "81928200, apfs.obj.checksum"})
    void flippedApfs(long at, String rule) throws IOException {
        try (DiskFile image = DiskFile.of(apfs())) {
            Judged judged = Judged.full(image.flip(at, 4));
            assertTrue(judged.failed().stream().allMatch(rule::equals), judged.text());
            assertTrue(at == 4100 || !judged.failed().isEmpty(), judged.text());
        }
    }

    @ParameterizedTest
    @CsvSource({"1024, hfs.vh.geometry", "1071, hfs.vh.geometry", "1200, hfs.vh.equal-alternate"})
    void flippedHfsPlus(int at, String rule) throws IOException {
        byte[] bytes = hfsPlus();
        bytes[at] ^= (byte) 0x40;
        Judged judged = Judged.full(DiskFile.of(bytes));
        assertTrue(judged.findings().all().stream().anyMatch(f -> f.check().equals(rule)
                && f.verdict() == sectorglass.verify.Verdict.FAILED), judged.text());
    }

    @Test
    void unreadIsNoDamage() throws IOException {
        byte[] bytes = hfsPlus();
        for (int lba = 0; lba < 20; lba++) {
            DiskFile image = DiskFile.of(bytes).unread(SectorRanges.of(lba, 1));
            List<String> failed = new ArrayList<>(Judged.full(image).failed());
            failed.remove("hfs.bitmap.leaked");
            assertEquals(List.of(), failed, "sector " + lba);
        }
        try (DiskFile image = DiskFile.of(apfs())) {
            for (int block : new int[] {0, 1, 2, 66, 20000, 20001, 20002}) {
                DiskFile partly = image.unread(SectorRanges.of(block * 8L + 3, 1));
                assertEquals(List.of(), Judged.full(partly).failed(), "block " + block);
            }
        }
    }

    @Test
    void hostileBytesNeverThrow() throws IOException {
        byte[] good = hfsPlus();
        java.util.Random random = new java.util.Random(3);
        for (int round = 0; round < 200; round++) {
            byte[] bytes = good.clone();
            for (int i = 0; i < 12; i++) {
                bytes[random.nextInt(14000)] = (byte) (random.nextBoolean() ? 0xFF : random.nextInt());
            }
            DiskFile image = DiskFile.of(bytes);
            if (Judged.open(image).isPresent()) {
                var volume = Judged.full(image).volume();
                volume.structureAt(1100);
                volume.capability(sectorglass.disk.Files.class).ifPresent(files -> {
                    var tree = files.tree(sectorglass.image.Progress.NONE);
                    for (int id = 0; id < tree.size(); id++) {
                        tree.entry(id);
                        var content = files.content(id, "");
                        if (content != null) {
                            content.missing();
                        }
                    }
                });
            }
        }
        try (DiskFile image = DiskFile.of(apfs())) {
            for (int round = 0; round < 60; round++) {
                DiskFile damaged = image;
                for (int i = 0; i < 10; i++) {
                    long block = List.of(0L, 1L, 2L, 66L, 20000L, 20001L, 20002L).get(random.nextInt(7));
                    damaged = damaged.set(block * 4096 + random.nextInt(400), (byte) random.nextInt());
                }
                if (Judged.open(damaged).isPresent()) {
                    Judged.full(damaged);
                }
            }
        }
    }
}
