package sectorglass.make;

import java.util.List;
import java.util.Map;

/**
 * Where the parts of a volume came to lie. All bytes are counted from the start of the disk.
 *
 * @param kind the file system
 * @param firstByte of the boot sector
 * @param bytes size of the partition or disk that holds the volume
 * @param clusterBytes bytes per cluster
 * @param places of structures, by name: {@code boot}, {@code backup boot}; FAT: {@code info}, {@code table 1}, {@code table 2},
 *        {@code root}; exFAT: {@code table 1}, {@code bitmap}, {@code up-case}, {@code root}; NTFS: {@code records},
 *        {@code mirror}, {@code bitmap}, {@code record bitmap}, {@code journal}; ext4: {@code superblock}, {@code descriptors},
 *        {@code block bitmap}, {@code inode bitmap}, {@code inodes}, {@code backup superblock}
 * @param files places of files and folders by path, {@code /} between names and none at the start; empty unless asked for
 */
public record MadeVolume(VolumeKind kind, long firstByte, long bytes, int clusterBytes, Map<String, Long> places,
        Map<String, Place> files) {

    /**
     * Where a file or folder came to lie.
     *
     * @param entryByte of its FAT or exFAT directory entry (of an exFAT set, the first), or of its NTFS file record, or inode
     * @param record its NTFS file record number or ext4 inode number, else -1
     * @param runs its content as pairs of first byte and length in bytes, whole clusters; empty where it has none
     */
    public record Place(long entryByte, long record, List<Run> runs) {
    }

    /**
     * A run of content.
     *
     * @param firstByte counted from the start of the disk
     * @param bytes length, whole clusters
     */
    public record Run(long firstByte, long bytes) {
    }

    /**
     * The byte at which a structure begins.
     *
     * @throws IllegalArgumentException if the volume has none of that name
     */
    public long place(String name) {
        Long at = places.get(name);
        if (at == null) {
            throw new IllegalArgumentException("no " + name + " in " + places.keySet());
        }
        return at;
    }

    /**
     * The place of a file or folder.
     *
     * @throws IllegalArgumentException if there is none of that path, or places were not asked for
     */
    public Place file(String path) {
        Place place = files.get(path);
        if (place == null) {
            throw new IllegalArgumentException("no place known for " + path);
        }
        return place;
    }
}
