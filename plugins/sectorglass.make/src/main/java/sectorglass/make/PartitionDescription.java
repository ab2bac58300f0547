package sectorglass.make;

import java.util.UUID;

/**
 * A partition to be made.
 *
 * @param firstLba first sector on the disk
 * @param sectors number of sectors, at least 1
 * @param slot where an MBR keeps it; a GPT takes no notice
 * @param mbrType type byte, 1 to 255; in a hybrid MBR it is mirrored where {@code mirrored} is set
 * @param active whether the MBR entry is marked active
 * @param mirrored whether a hybrid MBR repeats this partition
 * @param gptType type GUID
 * @param guid its own GUID in a GPT; null: taken from the seed
 * @param name its name in a GPT, at most 36 UTF-16 units
 * @param attributes attribute bits in a GPT
 * @param volume the volume in it; null: left empty
 */
public record PartitionDescription(long firstLba, long sectors, Slot slot, int mbrType, boolean active, boolean mirrored,
        UUID gptType, UUID guid, String name, long attributes, VolumeDescription volume) {

    /** Ordinary volumes of a disk under the name they bear in GPT maps (UEFI 2.10 leaves it to the vendors): NTFS, FAT, exFAT. */
    public static final UUID BASIC_DATA = UUID.fromString("ebd0a0a2-b9e5-4433-87c0-68b6b72699c7");
    /** Volume with boot files for UEFI firmware (UEFI 2.10, section 5.3.3). */
    public static final UUID EFI_SYSTEM = UUID.fromString("c12a7328-f81f-11d2-ba4b-00a0c93ec93b");

    /** Checks what needs no knowledge of the disk. */
    public PartitionDescription {
        if (firstLba < 1 || sectors < 1) {
            throw new IllegalArgumentException("firstLba=" + firstLba + " sectors=" + sectors);
        }
        if (mbrType < 1 || mbrType > 255) {
            throw new IllegalArgumentException("mbrType=" + mbrType);
        }
        if (name.length() > 36) {
            throw new IllegalArgumentException("name has " + name.length() + " UTF-16 units, 36 at most");
        }
    }

    /** An empty primary partition. */
    public static PartitionDescription primary(long firstLba, long sectors, int mbrType) {
        return new PartitionDescription(firstLba, sectors, Slot.PRIMARY, mbrType, false, false, BASIC_DATA, null, "", 0, null);
    }

    /** An empty logical partition. */
    public static PartitionDescription logical(long firstLba, long sectors, int mbrType) {
        return new PartitionDescription(firstLba, sectors, Slot.LOGICAL, mbrType, false, false, BASIC_DATA, null, "", 0, null);
    }

    /** A container for logical partitions, of type 05, 0F or 85. */
    public static PartitionDescription container(long firstLba, long sectors, int mbrType) {
        return new PartitionDescription(firstLba, sectors, Slot.CONTAINER, mbrType, false, false, BASIC_DATA, null, "", 0, null);
    }

    /** An empty partition of a GPT. */
    public static PartitionDescription gpt(long firstLba, long sectors, UUID type, UUID guid, String name, long attributes) {
        return new PartitionDescription(firstLba, sectors, Slot.PRIMARY, 0x07, false, false, type, guid, name, attributes, null);
    }

    /** The same, marked active. */
    public PartitionDescription asActive() {
        return new PartitionDescription(firstLba, sectors, slot, mbrType, true, mirrored, gptType, guid, name, attributes, volume);
    }

    /** The same, repeated by a hybrid MBR with that type. */
    public PartitionDescription mirroredAs(int type) {
        return new PartitionDescription(firstLba, sectors, slot, type, active, true, gptType, guid, name, attributes, volume);
    }

    /** The same with a name. */
    public PartitionDescription named(String newName) {
        return new PartitionDescription(firstLba, sectors, slot, mbrType, active, mirrored, gptType, guid, newName, attributes,
                volume);
    }

    /** The same with a volume in it. */
    public PartitionDescription with(VolumeDescription newVolume) {
        return new PartitionDescription(firstLba, sectors, slot, mbrType, active, mirrored, gptType, guid, name, attributes,
                newVolume);
    }

    /** First sector after the partition. */
    public long endLba() {
        return firstLba + sectors;
    }
}
