package sectorglass.disk;

import java.time.Instant;
import java.util.List;

import sectorglass.image.SectorRange;

/**
 * What a volume says of itself. Absent values are null.
 *
 * @param kind fat12 … unknown, as in the list of kinds
 * @param range the sectors of the disk that it says it fills
 * @param label its label; FAT: the root directory's
 * @param bootLabel FAT: the boot sector's label
 * @param serial FAT and exFAT XXXX-XXXX, NTFS 16 digits, upper case
 * @param uuid lower case
 * @param clusterBytes bytes per cluster or block
 * @param bytes size in bytes
 * @param usedBytes bytes in use, where a structure that was read says so
 * @param latest latest date met in its structures
 * @param remarks in words: "not closed cleanly", "journal needs replay"
 */
public record VolumeInfo(String kind, SectorRange range, String label, String bootLabel, String serial, String uuid,
        Long clusterBytes, Long bytes, Long usedBytes, Instant latest, List<String> remarks) { }
