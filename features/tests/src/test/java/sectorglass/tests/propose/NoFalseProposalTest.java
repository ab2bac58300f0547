package sectorglass.tests.propose;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.IntFunction;
import java.util.stream.Stream;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.recovery.propose.BoundarySites;
import sectorglass.recovery.propose.Proposal;
import sectorglass.recovery.propose.Proposals;
import sectorglass.recovery.propose.Sites;
import sectorglass.testkit.Tool;
import sectorglass.verify.RuleBook;

/**
 * From random bytes, compressed files and volumes stored as files no proposal is made. {@code -Dpropose.mebibytes=10240} does it on 10 GB of each;
 * the bytes are computed when they are asked for, so no such file is needed.
 */
class NoFalseProposalTest {
    private static final int MIB = 1 << 20;
    private static final int SIZE = Integer.getInteger("propose.mebibytes", 48);

    @TempDir
    static Path folder;

    /** An image of computed pieces of 1 MiB. */
    private static final class Computed implements SectorImage {
        private final IntFunction<byte[]> piece;
        private int kept = -1;
        private byte[] bytes;

        Computed(IntFunction<byte[]> piece) {
            this.piece = piece;
        }

        @Override
        public String name() {
            return "computed";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public long bytes() {
            return (long) SIZE * MIB;
        }

        @Override
        public synchronized SectorStates read(long firstByte, byte[] into, int offset, int length) {
            long end = Math.min(bytes(), firstByte + length);
            for (long at = firstByte; at < end;) {
                int index = (int) (at / MIB);
                if (index != kept) {
                    bytes = piece.apply(index);
                    kept = index;
                }
                int from = (int) (at % MIB);
                int count = (int) Math.min(end - at, MIB - from);
                System.arraycopy(bytes, from, into, (int) (offset + at - firstByte), count);
                at += count;
            }
            SectorStates all = SectorStates.allRead(512, firstByte, length);
            return firstByte + length <= bytes() ? all
                    : all.with(SectorRanges.of(sectors(), (firstByte + length + 511) / 512 - sectors()), ReadState.UNREAD);
        }

        @Override
        public ReadState state(long lba) {
            return lba < sectors() ? ReadState.READ : ReadState.UNREAD;
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            long end = Math.min(within.end(), sectors());
            SectorRanges read = end > within.first() ? SectorRanges.of(within.first(), end - within.first()) : SectorRanges.EMPTY;
            return state == ReadState.READ ? read : state == ReadState.UNREAD ? SectorRanges.of(within).minus(read) : SectorRanges.EMPTY;
        }
    }

    @TestFactory
    Stream<DynamicTest> nothingIsProposedFromBytesThatAreNoDisk() {
        return Stream.of(DynamicTest.dynamicTest("random bytes", () -> hold(NoFalseProposalTest::random)),
                DynamicTest.dynamicTest("compressed text", () -> hold(NoFalseProposalTest::compressed)),
                DynamicTest.dynamicTest("zeros", () -> hold(index -> new byte[MIB])),
                DynamicTest.dynamicTest("volumes in an archive", () -> hold(archive())));
    }

    private static void hold(IntFunction<byte[]> piece) {
        assertEquals(List.of(), proposals(new Computed(piece)));
    }

    private static List<String> proposals(SectorImage image) {
        Sites sites = BoundarySites.of(image, Progress.NONE);
        return new Proposals(RuleBook.ofProviders(Locale.ENGLISH), sites::volumes).of(image, Progress.NONE).stream().map(Proposal::id).toList();
    }

    private static byte[] random(int index) {
        byte[] bytes = new byte[MIB];
        new Random(7919L * index + 1).nextBytes(bytes);
        return bytes;
    }

    private static byte[] compressed(int index) {
        Random random = new Random(104_729L * index + 3);
        ByteArrayOutputStream out = new ByteArrayOutputStream(MIB + 1024);
        try (DeflaterOutputStream deflate = new DeflaterOutputStream(out, new Deflater(1))) {
            while (out.size() < MIB) {
                StringBuilder text = new StringBuilder();
                for (int i = 0; i < 4000; i++) {
                    text.append("the river bends at ").append(random.nextInt(1 << 20)).append(' ');
                }
                deflate.write(text.toString().getBytes(StandardCharsets.US_ASCII));
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        return Arrays.copyOf(out.toByteArray(), MIB);
    }

    /** Members one after the other, each with a head of 512 bytes, as tape archives have them; over and over. */
    private static IntFunction<byte[]> archive() throws IOException {
        Tool.require("mkntfs", "mkfs.fat", "mmd", "mke2fs", "mkfs.exfat", "sfdisk");
        Disks disks = new Disks(folder);
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (String name : List.of("ntfs", "fat16", "exfat", "mbr-fdisk")) {
            byte[] head = new byte[512];
            byte[] words = ("stored/" + name + ".img 0000644 0001750 0001750 ustar").getBytes(StandardCharsets.US_ASCII);
            System.arraycopy(words, 0, head, 0, words.length);
            all.write(head);
            all.write(Files.readAllBytes(disks.disk(name).file()));
        }
        byte[] bytes = all.toByteArray();
        return index -> {
            byte[] piece = new byte[MIB];
            for (int i = 0; i < MIB;) {
                int from = (int) (((long) index * MIB + i) % bytes.length);
                int count = Math.min(MIB - i, bytes.length - from);
                System.arraycopy(bytes, from, piece, i, count);
                i += count;
            }
            return piece;
        };
    }

    @Test
    void volumesInFilesOfAVolumeAreItsContent() throws Exception {
        Tool.require("mkntfs", "mkfs.fat", "mmd", "mke2fs");
        Path stored = Files.createDirectory(folder.resolve("stored"));
        Disks disks = new Disks(Files.createDirectory(folder.resolve("made")));
        for (String name : List.of("ntfs", "fat16")) {
            Files.copy(disks.disk(name).file(), stored.resolve(name + ".img"));
        }
        Path volume = folder.resolve("outer.img");
        Disks.write(volume, new byte[64 * MIB]);
        Tool.run("mke2fs", "-q", "-F", "-t", "ext4", "-d", stored.toString(), volume.toString()).ok();
        try (OpenImage image = Images.open(volume, OpenOptions.DEFAULT.withAlone(true))) {
            assertEquals(List.of(), proposals(image), "a volume without a table");
        }
        Path disk = folder.resolve("disk.img");
        Disks.write(disk, new byte[66 * MIB]);
        Tool.run(java.util.Map.of(), "label: dos\nstart=2048,size=131072,type=83\n", 20, "sfdisk", "-q", "--no-reread", disk.toString()).ok();
        Disks.copy(volume, 0, 64L * MIB, disk, MIB);
        try (OpenImage image = Images.open(disk, OpenOptions.DEFAULT.withAlone(true))) {
            assertEquals(List.of(), proposals(image), "a sound disk");
        }
        byte[] bytes = Files.readAllBytes(disk);
        Arrays.fill(bytes, 0, 512, (byte) 0);
        Disks.write(disk, bytes);
        try (OpenImage image = Images.open(disk, OpenOptions.DEFAULT.withAlone(true))) {
            Sites sites = BoundarySites.of(image, Progress.NONE);
            List<Proposal> all = new Proposals(RuleBook.ofProviders(Locale.ENGLISH), sites::volumes).of(image, Progress.NONE);
            assertEquals(1, all.size());
            List<String> volumes = new ArrayList<>(all.get(0).effect().volumesAfter());
            assertEquals(List.of("ext4 at " + MIB), volumes, "only the outer volume gets a slot");
        }
    }
}
