package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.testkit.Tool;

class SparseFileTest {
    @TempDir
    private Path folder;

    @Test
    void holdsWhatWasWrittenAtRandomPlacesOfA40GigabyteFile() throws IOException {
        Path file = folder.resolve("sparse.img");
        long size = 40_000_000_000L;
        SplitMix64 places = new SplitMix64(3);
        long[] at = new long[600];
        try (SparseFile medium = SparseFile.create(file, size)) {
            for (int i = 0; i < at.length; i++) {
                at[i] = Math.floorMod(places.next(), size / 512) * 512;
                byte[] bytes = new byte[512];
                new SplitMix64(at[i]).fill(bytes, 0, 512);
                medium.write(at[i], bytes);
            }
        }
        try (SparseFile medium = SparseFile.open(file)) {
            assertEquals(size, medium.bytes());
            for (long place : at) {
                byte[] expected = new byte[512];
                new SplitMix64(place).fill(expected, 0, 512);
                assertArrayEquals(expected, medium.read(place, 512));
            }
        }
        long stored = Long.parseLong(Tool.run("stat", "-c", "%b", file.toString()).ok().trim()) * 512;
        assertTrue(stored < 600L * 16384, "stored " + stored);
    }

    @Test
    void writesAcrossPagesAndOverwritesWithZeros() throws IOException {
        Path file = folder.resolve("small.img");
        try (SparseFile medium = SparseFile.create(file, 200_000)) {
            byte[] all = new byte[200_000];
            java.util.Arrays.fill(all, (byte) 7);
            medium.write(0, all);
        }
        try (SparseFile medium = SparseFile.open(file)) {
            medium.write(65_000, new byte[70_000]);
        }
        byte[] expected = new byte[200_000];
        java.util.Arrays.fill(expected, (byte) 7);
        java.util.Arrays.fill(expected, 65_000, 135_000, (byte) 0);
        assertArrayEquals(expected, Files.readAllBytes(file));
    }

    @Test
    void refusesWhatLeavesThePart() throws IOException {
        try (SparseFile medium = SparseFile.create(folder.resolve("x.img"), 4096)) {
            Medium part = medium.part(1024, 1024);
            part.write(1023, new byte[] {9});
            assertEquals(9, medium.read(2047, 1)[0]);
            assertThrows(IndexOutOfBoundsException.class, () -> part.write(1024, new byte[1]));
            assertThrows(IndexOutOfBoundsException.class, () -> part.read(-1, 1));
            assertThrows(IndexOutOfBoundsException.class, () -> medium.part(4000, 97));
        }
    }
}
