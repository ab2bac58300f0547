package sectorglass.filetest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Locale;
import java.util.Random;

import org.junit.jupiter.api.Test;

import sectorglass.disk.FileState;
import sectorglass.image.Progress;
import sectorglass.recovery.opening.FileTests;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestResult.Answer;

class PstFilesTest {
    private final byte[] sound = PstSample.make(new Random(5));

    private static TestResult test(byte[] bytes) {
        return FileTests.ofProviders().test("mail.pst", new MemoryContent(bytes), FileState.COMPLETE, Progress.NONE);
    }

    private TestResult changed(int at) {
        byte[] hurt = sound.clone();
        hurt[at] ^= 0x40;
        return test(hurt);
    }

    @Test
    void aSoundStoreIsSoundAndNoMore() {
        assertEquals(Answer.SOUND, test(sound).answer(), test(sound).sentence(Locale.ENGLISH));
    }

    /** Places: header, NBT and BBT pages, a block's content, its trailer's number and signature, the allocation map. */
    @Test
    void aBitThatAChecksumCoversIsMissed() {
        int block = 0x4600 + 4 * 512 + 3072;
        for (int at : new int[] {20, 500, 0x4600 + 100, 0x4600 + 2 * 512 + 3, 0x4600 + 3 * 512 + 9, block, block + 2999, block + 3056, block + 3058, block + 3064, 0x4400 + 17}) {
            assertEquals(Answer.DAMAGED, changed(at).answer(), "byte " + at);
        }
        assertTrue(changed(block + 7).sentence(Locale.ENGLISH).startsWith(String.format(Locale.ENGLISH, "The checksum of its part block at byte %,d", block)), changed(block + 7).sentence(Locale.ENGLISH));
        assertEquals("test.chunk", changed(20).reason());
    }

    /** A node that names a block that no tree lists; with a right checksum. */
    @Test
    void aNodeWithoutItsBlockIsFound() {
        byte[] hurt = sound.clone();
        ByteBuffer page = ByteBuffer.wrap(hurt).order(ByteOrder.LITTLE_ENDIAN);
        int at = 0x4600 + 3 * 512;
        page.putLong(at + 8, 0x7770);
        byte[] bytes = java.util.Arrays.copyOfRange(hurt, at, at + 496);
        page.putInt(at + 500, (int) PstCrc.of(bytes, 496));
        assertEquals("test.form", test(hurt).reason());
    }

    /** A tree that leads back to its own page; with right checksums it must still come to an end. */
    @Test
    void aTreeThatLeadsToItselfEnds() {
        byte[] hurt = sound.clone();
        ByteBuffer page = ByteBuffer.wrap(hurt).order(ByteOrder.LITTLE_ENDIAN);
        int root = 0x4600 + 2 * 512;
        page.putLong(root + 8, 1100).putLong(root + 16, root);
        page.putInt(root + 500, (int) PstCrc.of(java.util.Arrays.copyOfRange(hurt, root, root + 496), 496));
        assertEquals("test.form", test(hurt).reason());
    }

    @Test
    void theOldFormIsNotTested() {
        byte[] old = sound.clone();
        old[10] = 14;
        assertEquals(Answer.NOT_TESTED, test(old).answer());
    }
}
