meta:
  id: gpt_header
  title: GPT header
  endian: le
  -kinds: [partition map]
doc: One of the two headers of a GUID partition table. It says where the entries stand and carries their checksum and its own.
doc-ref: UEFI 2.10, section 5.3.2
seq:
  - id: signature
    contents: "EFI PART"
    -label: Signature
    -unit: ascii
    doc: Marks the header.
  - id: revision
    type: u4
    -label: Revision
    -unit: hex
    -values: {0x00010000: "1.0"}
    doc: Version of the format, not of the firmware.
  - id: header_size
    type: u4
    -label: HeaderSize
    -unit: bytes
    doc: Bytes that the checksum covers; 92 in practice, at most one sector.
    valid:
      min: 92
  - id: header_crc32
    type: u4
    -label: HeaderCRC32
    -unit: hex
    doc: CRC-32 of HeaderSize bytes, this field taken as zero.
  - id: reserved
    type: u4
    -label: Reserved
    -unit: hex
    doc: Zero.
  - id: my_lba
    type: u8
    -label: MyLBA
    -unit: lba
    -link: lba
    -format: gpt_header
    doc: The LBA where this header belongs.
  - id: alternate_lba
    type: u8
    -label: AlternateLBA
    -unit: lba
    -link: lba
    -format: gpt_header
    doc: The LBA of the other copy; of the primary the last LBA of the disk, of the backup 1.
  - id: first_usable_lba
    type: u8
    -label: FirstUsableLBA
    -unit: lba
    -link: lba
    doc: First LBA that a partition may use; at least 34 with sectors of 512 bytes, 6 with 4096.
  - id: last_usable_lba
    type: u8
    -label: LastUsableLBA
    -unit: lba
    -link: lba
    doc: Last LBA that a partition may use, itself included.
  - id: disk_guid
    size: 16
    -label: DiskGUID
    -unit: guid
    doc: Identity of the disk, the same in both copies.
  - id: partition_entry_lba
    type: u8
    -label: PartitionEntryLBA
    -unit: lba
    -link: lba
    -format: gpt_entries
    doc: First LBA of the array of entries; 2 in practice for the primary.
  - id: number_of_partition_entries
    type: u4
    -label: NumberOfPartitionEntries
    -unit: dec
    doc: Entries in the array, unused ones included; 128 in practice.
    valid:
      min: 1
  - id: size_of_partition_entry
    type: u4
    -label: SizeOfPartitionEntry
    -unit: bytes
    doc: Bytes per entry, 128 times a power of two.
    valid:
      min: 128
  - id: partition_entry_array_crc32
    type: u4
    -label: PartitionEntryArrayCRC32
    -unit: hex
    doc: CRC-32 of the whole array, unused entries included.
  - id: rest
    size-eos: true
    -label: Reserved
    -unit: hex
    doc: Rest of the sector; zeros. Not covered by the checksum where HeaderSize is 92.
