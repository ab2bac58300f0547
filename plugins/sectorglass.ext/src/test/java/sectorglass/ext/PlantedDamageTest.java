package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

import org.junit.jupiter.api.Test;

import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;

/**
 * One fault at a time in the volume e4 (blocks of 4096 bytes, inode table of group 0 at block 10, inodes of 256 bytes): one cause is
 * reported first, whatever follows from it. "Fixed": dependent checksums are computed anew.
 */
class PlantedDamageTest {
    private static final int SEED = 0xE4015B4A;
    private static final int BLOCK = 4096;

    private final byte[] bytes = ExtImages.image("e4").clone();
    private final ByteBuffer le = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);

    private static int inode(int number) {
        return 10 * BLOCK + (number - 1) * 256;
    }

    private void fixInode(int number) {
        int at = inode(number);
        le.putShort(at + 0x7C, (short) 0);
        le.putShort(at + 0x82, (short) 0);
        int crc = Crc.raw(seed(number), bytes, at, 256);
        le.putShort(at + 0x7C, (short) crc);
        le.putShort(at + 0x82, (short) (crc >>> 16));
    }

    private int seed(int number) {
        return Crc.raw(Crc.raw(SEED, Crc.le32(number)), bytes, inode(number) + 0x64, 4);
    }

    private void fixDirectory(int number, int block) {
        le.putInt(block * BLOCK + BLOCK - 4, Crc.raw(seed(number), bytes, block * BLOCK, BLOCK - 12));
    }

    private void fixBitmap() {
        int crc = Crc.raw(SEED, bytes, 2 * BLOCK, 256);
        le.putShort(BLOCK + 0x18, (short) crc);
        le.putShort(BLOCK + 0x38, (short) (crc >>> 16));
        le.putShort(BLOCK + 0x1E, (short) 0);
        le.putShort(BLOCK + 0x1E, (short) Crc.raw(Crc.raw(SEED, Crc.le32(0)), bytes, BLOCK, 64));
    }

    private void fixSuperblock(int at) {
        le.putInt(at + 0x3FC, Crc.raw(Crc.START, bytes, at, 0x3FC));
    }

    private Judged judged() {
        return Forced.full(DiskFile.of(bytes));
    }

    private void only(String... rules) {
        Judged judged = judged();
        assertEquals(List.of(rules), judged.failed(), judged.text());
    }

    @Test
    void superblockChecksum() {
        bytes[1024 + 0x3FC] ^= 1;
        only("ext.sb.checksum");
        bytes[1024 + 0x3FC] ^= 1;
        bytes[1024 + 0x78] = 'X';
        only("ext.sb.checksum");
    }

    @Test
    void descriptorChecksum() {
        bytes[BLOCK + 64 + 0x1E] ^= 1;
        Judged judged = judged();
        assertEquals(List.of("ext.gd.checksum"), judged.failed(), judged.text());
        assertTrue(judged.text().contains("9484") && judged.text().contains("9485"), judged.text());
    }

    @Test
    void inodeChecksum() {
        bytes[inode(14) + 0x7C] ^= 1;
        only("ext.inode.checksum");
    }

    @Test
    void extentBeyondTheVolume() {
        le.putInt(inode(15) + 0x28 + 12 + 8, 9000);
        fixInode(15);
        only("ext.extent.range");
        bytes[inode(15) + 0x7C] ^= 1;
        only("ext.inode.checksum");
    }

    @Test
    void blockClaimedTwice() {
        le.putInt(inode(14) + 0x28 + 12 + 8, 82);
        fixInode(14);
        Judged judged = judged();
        assertTrue(judged.failed().contains("ext.block.claimed-once"), judged.text());
        assertTrue(judged.text().contains("inodes [14, 15] share 1 blocks, the first is 82"), judged.text());
    }

    @Test
    void bitmapBit() {
        bytes[2 * BLOCK + 83 / 8] &= (byte) ~(1 << 83 % 8);
        only("ext.bitmap.checksum");
        fixBitmap();
        only("ext.block.marked");
    }

    @Test
    void entryOfNoLength() {
        le.putShort(79 * BLOCK + 24 + 4, (short) 0);
        fixDirectory(12, 79);
        only("ext.dir.entry");
    }

    @Test
    void dotDotElsewhereAndEntryGone() {
        le.putInt(79 * BLOCK + 12, 13);
        fixDirectory(12, 79);
        removeEntry(74, 12);
        fixDirectory(2, 74);
        Judged judged = judged();
        assertTrue(judged.failed().contains("ext.dir.tree"), judged.text());
    }

    private void removeEntry(int block, int child) {
        int before = block * BLOCK;
        for (int at = before; at < (block + 1) * BLOCK - 12; at += le.getShort(at + 4)) {
            if (le.getInt(at) == child && at > block * BLOCK + 12) {
                le.putShort(before + 4, (short) (le.getShort(before + 4) + le.getShort(at + 4)));
                return;
            }
            before = at;
        }
        throw new AssertionError("no entry for " + child);
    }

    @Test
    void entryLeadsToADirectory() {
        int at = 80 * BLOCK + 24;
        assertEquals(16, le.getInt(at));
        le.putInt(at, 12);
        fixDirectory(13, 80);
        Judged judged = judged();
        assertTrue(judged.failed().contains("ext.dir.tree"), judged.text());
    }

    @Test
    void backupsAreCompared() {
        int backup = 2048 * BLOCK;
        bytes[backup + 0x78] = 'X';
        only("ext.sb.checksum");
        bytes[backup + 0x78] = 'T';
        le.putInt(backup + 4, 4096);
        fixSuperblock(backup);
        only("ext.sb.backup-equals");
        le.putInt(backup + 4, 8192);
        fixSuperblock(backup);
        bytes[backup + BLOCK + 8] ^= 4;
        only("ext.gd.backup-equals");
    }

    @Test
    void extentMagic() {
        le.putShort(inode(16) + 0x28, (short) 0xF30B);
        fixInode(16);
        only("ext.extent.header");
    }

    @Test
    void extentNode() {
        le.putInt(137 * BLOCK + 12 + 12, 1);
        only("ext.extent.checksum");
        bytes[137 * BLOCK + 12 + 12] = 2;
        only();
        le.putInt(inode(17) + 0x28 + 2, 5 | 4 << 16);
        fixInode(17);
        only("ext.extent.header");
    }

    @Test
    void linkCount() {
        le.putShort(inode(14) + 0x1A, (short) 2);
        fixInode(14);
        only("ext.links");
    }

    @Test
    void inodeOfQuotaWithoutTheFeature() {
        le.putShort(inode(3), (short) 0x8180);
        le.putShort(inode(3) + 0x1A, (short) 1);
        le.putShort(inode(3) + 0x80, (short) 32);
        fixInode(3);
        only("ext.inode.sane");
    }

    @Test
    void inodeForGrowth() {
        byte[] grow = ExtImages.image("e4grow").clone();
        ByteBuffer sum = ByteBuffer.wrap(grow).order(ByteOrder.LITTLE_ENDIAN);
        int descriptor = 2048; // blocks of 1024 bytes: the table of group 0 begins in block 2
        int at = sum.getInt(descriptor + 8) * 1024 + 6 * 256;
        assertEquals((short) 0x8180, sum.getShort(at));
        sum.putInt(at + 0x28 + 8, sum.getInt(at + 0x28 + 13 * 4));
        int seed = Crc.raw(Crc.raw(Crc.raw(Crc.START, grow, 1024 + 0x68, 16), Crc.le32(7)), grow, at + 0x64, 4);
        sum.putShort(at + 0x7C, (short) 0);
        sum.putShort(at + 0x82, (short) 0);
        int crc = Crc.raw(seed, grow, at, 256);
        sum.putShort(at + 0x7C, (short) crc);
        sum.putShort(at + 0x82, (short) (crc >>> 16));
        Judged judged = Forced.full(DiskFile.of(grow));
        assertTrue(judged.failed().contains("ext.inode.sane"), judged.text());
    }

    @Test
    void superblockMagicGone() {
        bytes[1024 + 0x38] = 0;
        Judged judged = judged();
        assertEquals(List.of("ext.sb.magic"), judged.failed(), judged.text());
        assertTrue(judged.volume().info().remarks().get(0).contains("backup superblock at byte 8388608"),
                () -> judged.volume().info().remarks().toString());
        Arrays.fill(bytes, 1024, 2048, (byte) 0);
        assertEquals("ext4", Forced.open(DiskFile.of(bytes)).info().kind());
        assertEquals("TESTVOL", Forced.open(DiskFile.of(bytes)).info().label());
    }

    @Test
    void signaturesOfOthersAreNoClaim() {
        byte[] text = "an image without a volume".getBytes(StandardCharsets.US_ASCII);
        assertTrue(new ExtVolumes().recognise(DiskFile.of(Arrays.copyOf(text, 1 << 20)).site()).isEmpty());
    }
}
