package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ImagesTest {
    @TempDir
    Path folder;

    private Path file(String name, int bytes) {
        return TestFiles.numbered(folder.resolve(name), bytes);
    }

    private static String refusal(Path path) {
        return assertThrows(ImageException.class, () -> Images.open(path)).getMessage();
    }

    @Test
    void readsBytesWithTheirStates() throws Exception {
        try (OpenImage image = Images.open(file("a.img", 5000))) {
            assertEquals(5000, image.bytes());
            assertEquals(9, image.sectors());
            assertEquals(512, image.sectorSize());
            assertTrue(image.sectorSizeReason().contains("nothing speaks for another size"));
            Window window = image.window(700, 1000);
            assertArrayEquals(TestFiles.numbers(700, 1000), window.bytes(0, 1000));
            assertEquals(ReadState.READ, image.state(8));
            assertEquals(ReadState.UNREAD, image.state(9));
        }
    }

    @Test
    void tellsOfACutOffLastSectorAndReadsItsBytes() throws Exception {
        try (OpenImage image = Images.open(file("a.img", 5000))) {
            assertTrue(image.remarks().stream().anyMatch(r -> r.contains("9 whole sectors") && r.contains("392 bytes of 512")), image.remarks()::toString);
            assertArrayEquals(TestFiles.numbers(4608, 392), image.window(4608, 392).bytes(0, 392));
            Window beyond = image.window(4608, 512);
            assertEquals(SectorRanges.of(9, 1), beyond.missing(0, 512));
            assertTrue(Window.ofRead(beyond.raw(0, 512), 0, 512).filled(0, 512, 0), "bytes of a sector that is not whole must not show");
        }
    }

    @Test
    void whatLiesBeyondTheEndIsUnread() throws Exception {
        try (OpenImage image = Images.open(file("a.img", 4096))) {
            Window window = image.window(4096 - 512, 2048);
            assertTrue(window.isRead(0, 512));
            assertEquals(SectorRanges.of(8, 3), window.missing(0, 2048));
            assertEquals(SectorRanges.of(100, 2), image.window(51200, 1024).missing(0, 1024));
            assertEquals(SectorRanges.of(Long.MAX_VALUE / 512 - 1, 1),
                    image.window((Long.MAX_VALUE / 512 - 1) * 512, 512).missing(0, 512));
            assertEquals(SectorRanges.of(8, 92), image.inState(ReadState.UNREAD, new SectorRange(4, 96)));
            assertEquals(SectorRanges.of(4, 4), image.inState(ReadState.READ, new SectorRange(4, 96)));
            assertEquals(SectorRanges.EMPTY, image.inState(ReadState.READ, new SectorRange(50, 50)));
        }
    }

    @Test
    void refusesWhatIsNoImageInASentence() throws Exception {
        assertTrue(refusal(folder).contains("is a folder"));
        assertTrue(refusal(folder.resolve("none.img")).contains("does not exist"));
        assertTrue(refusal(Files.createFile(folder.resolve("empty.img"))).contains("is empty"));
        String denied = Images.refusal(folder, new AccessDeniedException("x"), OpenOptions.DEFAULT).getMessage();
        assertTrue(denied.contains("may not be read by this user"), denied);
        String german = Images.refusal(folder, new AccessDeniedException("x"), OpenOptions.DEFAULT.withLocale(Locale.GERMAN)).getMessage();
        assertTrue(german.contains("darf von diesem Benutzer nicht gelesen werden"), german);
    }

    @Test
    void refusesAFileWithoutReadPermission() throws Exception {
        Path secret = file("secret.img", 512);
        Assumptions.assumeTrue(secret.toFile().setReadable(false) && !Files.isReadable(secret), "this user may read everything");
        assertTrue(refusal(secret).contains("may not be read"));
    }

    @Test
    void refusesDevicesUnlessAsked() {
        Path zero = Path.of("/dev/zero");
        Assumptions.assumeTrue(Files.exists(zero), "no /dev/zero on this system");
        String sentence = refusal(zero);
        assertTrue(sentence.contains("is a device") && sentence.contains("imaged first"), sentence);
        String noSize = assertThrows(ImageException.class,
                () -> Images.open(zero, OpenOptions.DEFAULT.withDeviceAnyway(true))).getMessage();
        assertTrue(noSize.contains("tells no size"), noSize);
    }

    @Test
    void opensADeviceWithAWarningWhenAsked() throws Exception {
        Path device = null;
        try (var all = Files.list(Path.of("/dev"))) {
            device = all.filter(p -> p.getFileName().toString().matches("vd[a-z]|sd[a-z]|nvme[0-9]n1|loop[0-9]") && Files.isReadable(p))
                    .findFirst().orElse(null);
        } catch (IOException e) {
            Assumptions.abort("no /dev on this system");
        }
        Assumptions.assumeTrue(device != null, "no block device to read");
        assertTrue(refusal(device).contains("is a device"));
        try (OpenImage image = Images.open(device, OpenOptions.DEFAULT.withDeviceAnyway(true).withRawAnyway(true))) {
            assertTrue(image.bytes() > 0);
            assertEquals(image.bytes(), image.parts().get(0).bytes());
            assertTrue(image.remarks().get(0).contains("is a device"), image.remarks()::toString);
            assertTrue(image.window(0, 4096).isRead(0, 4096));
        } catch (ImageException e) {
            Assumptions.abort("the device has no medium or may not be read: " + e.getMessage());
        }
    }

    @Test
    void aFileThatShrinksGivesFailedSectorsAndASentence() throws Exception {
        Path path = file("a.img", 64 * 512);
        try (OpenImage image = Images.open(path)) {
            assertTrue(image.window(0, 64 * 512).isRead(0, 64 * 512));
            try (RandomAccessFile cut = new RandomAccessFile(path.toFile(), "rw")) {
                cut.setLength(10 * 512 + 100);
            }
            Window window = image.window(0, 64 * 512);
            assertEquals(SectorRanges.of(10, 54), window.missing(0, 64 * 512));
            assertEquals(ReadState.FAILED, window.state(20 * 512));
            assertArrayEquals(TestFiles.numbers(0, 5120), window.bytes(0, 5120));
            assertTrue(image.troubles().get(0).contains("the file ends at byte 5220"), image.troubles()::toString);
        }
    }

    @Test
    void aClosedImageGivesFailedSectors() throws Exception {
        OpenImage image = Images.open(file("a.img", 1024));
        image.close();
        assertEquals(ReadState.FAILED, image.sector(0).state(0));
    }

    @Test
    void interruptedThreadsDisturbNobody() throws Exception {
        int bytes = 1 << 20;
        try (OpenImage image = Images.open(file("a.img", bytes))) {
            ExecutorService pool = Executors.newFixedThreadPool(4);
            try {
                Callable<Boolean> reader = () -> {
                    boolean good = true;
                    for (int i = 0; i < 400; i++) {
                        if (i % 7 == 0) {
                            Thread.currentThread().interrupt();
                        }
                        Window window = image.window(i * 1000L, 3000);
                        good &= window.isRead(0, 3000) && window.bytes(0, 3000)[2999] == TestFiles.number(i * 1000L + 2999);
                        good &= i % 7 != 0 || Thread.interrupted();
                    }
                    return good;
                };
                for (Future<Boolean> result : pool.invokeAll(List.of(reader, reader, reader, reader))) {
                    assertTrue(result.get());
                }
                assertEquals(List.of(), image.troubles());
            } finally {
                pool.shutdownNow();
            }
        }
    }

    @Test
    void theImageIsNotChangedByReading() throws Exception {
        Path path = file("a.img", 300_000);
        String before = TestFiles.sha256(path);
        var time = Files.getLastModifiedTime(path);
        try (OpenImage image = Images.open(path)) {
            image.window(0, 300_000);
            image.window(299_000, 5000);
        }
        assertEquals(before, TestFiles.sha256(path));
        assertEquals(time, Files.getLastModifiedTime(path));
        path.toFile().setWritable(false);
        try (OpenImage image = Images.open(path)) {
            assertTrue(image.sector(0).isRead(0, 512));
        }
    }

    @Test
    void a20TerabyteFileIsReadAtItsEnd() throws Exception {
        Path memory = Path.of("/dev/shm");
        Assumptions.assumeTrue(Files.isWritable(memory), "no file system here holds a file of 20 TB");
        Path path = Files.createTempFile(memory, "far", ".img");
        try {
            long bytes = 20_000_000_000_256L / 512 * 512;
            try (RandomAccessFile far = new RandomAccessFile(path.toFile(), "rw")) {
                far.setLength(bytes);
                far.seek(bytes - 512);
                far.write(TestFiles.numbers(7, 512));
            }
            try (OpenImage image = Images.open(path)) {
                assertEquals(39062500000L, image.sectors());
                assertArrayEquals(TestFiles.numbers(7, 512), image.sector(39062499999L).bytes(0, 512));
                assertTrue(image.sector(39062499998L).filled(0, 512, 0));
            }
        } finally {
            Files.delete(path);
        }
    }

    @Test
    void aSectorSizeSetByHandIsTaken() throws Exception {
        try (OpenImage image = Images.open(file("a.img", 8192), OpenOptions.DEFAULT.withSectorSize(4096))) {
            assertEquals(2, image.sectors());
            assertEquals("set by hand", image.sectorSizeReason());
        }
        assertThrows(IllegalArgumentException.class, () -> OpenOptions.DEFAULT.withSectorSize(1000));
        assertFalse(OpenOptions.DEFAULT.deviceAnyway());
    }
}
