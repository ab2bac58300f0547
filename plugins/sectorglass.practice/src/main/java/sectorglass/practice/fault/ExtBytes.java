package sectorglass.practice.fault;

import java.io.IOException;

import sectorglass.make.Checksums;
import sectorglass.make.MadeVolume;

/**
 * Places and checksums of the ext4 volume of a site (Linux kernel documentation, filesystems/ext4: super block, block group descriptors, inodes,
 * directory entries).
 */
final class ExtBytes {
    private static final int SUPERBLOCK = 1024;
    private static final int DESCRIPTOR = 32;
    private static final int INODE = 256;

    private final Site site;

    ExtBytes(Site site) {
        this.site = site;
    }

    long superblock() {
        return site.place("superblock");
    }

    long backup() {
        return site.place("backup superblock");
    }

    long descriptor(int group) {
        return site.place("descriptors") + (long) DESCRIPTOR * group;
    }

    private int seed() throws IOException {
        return Checksums.crc32c(-1, site.read(superblock() + 0x68, 16), 0, 16);
    }

    private int ownSeed(MadeVolume.Place place) throws IOException {
        return Checksums.crc32c(Checksums.crc32c(seed(), place.record()), 0L);
    }

    void sumSuperblock(long at) throws IOException {
        site.quietly(at + 0x3FC, 4, Checksums.crc32c(-1, site.read(at, SUPERBLOCK), 0, 0x3FC));
    }

    void sumDescriptor(int group) throws IOException {
        byte[] bytes = site.read(descriptor(group), DESCRIPTOR);
        bytes[30] = 0;
        bytes[31] = 0;
        site.quietly(descriptor(group) + 30, 2, Checksums.crc32c(Checksums.crc32c(seed(), group), bytes, 0, DESCRIPTOR));
    }

    /** Makes the checksums of a block bitmap and of its descriptor hold again. */
    void sumBitmap(int group) throws IOException {
        int bytes = (int) site.number(superblock() + 0x20, 4) / 8;
        long at = site.volume().firstByte() + site.number(descriptor(group), 4) * site.clusterBytes();
        site.quietly(descriptor(group) + 24, 2, Checksums.crc32c(seed(), site.read(at, bytes), 0, bytes));
        sumDescriptor(group);
    }

    void sumInode(MadeVolume.Place place) throws IOException {
        byte[] bytes = site.read(place.entryByte(), INODE);
        bytes[0x7C] = 0;
        bytes[0x7D] = 0;
        bytes[0x82] = 0;
        bytes[0x83] = 0;
        int sum = Checksums.crc32c(ownSeed(place), bytes, 0, INODE);
        site.quietly(place.entryByte() + 0x7C, 2, sum).quietly(place.entryByte() + 0x82, 2, sum >>> 16);
    }

    void sumFolder(MadeVolume.Place place, long block) throws IOException {
        int length = site.clusterBytes() - 12;
        site.quietly(block + length + 8, 4, Checksums.crc32c(ownSeed(place), site.read(block, length), 0, length));
    }
}
