meta:
  id: exfat_boot_sector
  title: exFAT boot sector
  endian: le
  -kinds: [boot sector]
doc: >-
  First sector of an exFAT volume, and of its backup boot region at sector 12. Its fields locate the FAT, the clusters and the root directory.
doc-ref: Microsoft exFAT file system specification, revision 1.00, section 3.1
seq:
  - id: jump
    size: 3
    -label: JumpBoot
    -unit: hex
    doc: EB 76 90.
  - id: name
    size: 8
    -label: FileSystemName
    -unit: ascii
    valid: "[0x45, 0x58, 0x46, 0x41, 0x54, 0x20, 0x20, 0x20]"
    doc: "'EXFAT' and three spaces."
  - id: must_be_zero
    size: 53
    -label: MustBeZero
    -unit: hex
    doc: All zero, so that no FAT driver takes the sector for its own.
  - id: partition_offset
    type: u8
    -label: PartitionOffset
    -unit: lba
    -link: lba
    doc: Sector of the medium where the volume starts; 0 is to be ignored.
  - id: volume_length
    type: u8
    -label: VolumeLength
    -unit: sectors
    doc: Sectors of the volume.
  - id: fat_offset
    type: u4
    -label: FatOffset
    -unit: sectors
    -link: sector
    -format: exfat_fat
    valid:
      min: 24
    doc: Sector of the first FAT.
  - id: fat_length
    type: u4
    -label: FatLength
    -unit: sectors
    doc: Sectors of one FAT.
  - id: heap_offset
    type: u4
    -label: ClusterHeapOffset
    -unit: sectors
    -link: sector
    doc: Sector of cluster 2.
  - id: cluster_count
    type: u4
    -label: ClusterCount
    -unit: dec
    doc: Number of clusters.
  - id: root_cluster
    type: u4
    -label: FirstClusterOfRootDirectory
    -unit: dec
    -link: cluster
    -format: exfat_directory
    valid:
      min: 2
    doc: First cluster of the root directory.
  - id: serial
    type: u4
    -label: VolumeSerialNumber
    -unit: hex
    doc: Serial number, shown as XXXX-XXXX with the high word first.
  - id: revision_minor
    type: u1
    -label: FileSystemRevision, minor
    -unit: dec
    doc: Minor revision, 0 to 99.
  - id: revision_major
    type: u1
    -label: FileSystemRevision, major
    -unit: dec
    doc: Major revision, 1.
  - id: volume_flags
    type: u2
    -label: VolumeFlags
    -unit: flags
    -flags: {0x0001: second FAT active, 0x0002: not closed cleanly, 0x0004: media failure recorded, 0x0008: clear to zero}
    doc: State of the volume; left out of the boot checksum and stale in the backup.
  - id: sector_shift
    type: u1
    -label: BytesPerSectorShift
    -unit: dec
    valid:
      min: 9
      max: 12
    doc: Bytes per sector as a power of two, 9 to 12.
  - id: cluster_shift
    type: u1
    -label: SectorsPerClusterShift
    -unit: dec
    valid:
      max: 16
    doc: Sectors per cluster as a power of two; a cluster has at most 32 MiB.
  - id: fats
    type: u1
    -label: NumberOfFats
    -unit: dec
    valid:
      min: 1
      max: 2
    doc: 1; 2 only on TexFAT volumes.
  - id: drive_select
    type: u1
    -label: DriveSelect
    -unit: hex
    doc: Drive number for the BIOS.
  - id: percent_in_use
    type: u1
    -label: PercentInUse
    -unit: dec
    doc: Share of clusters in use, 0 to 100; 255 where not known. Left out of the boot checksum.
  - id: reserved
    size: 7
    -label: Reserved
    -unit: hex
    doc: Reserved, 0.
  - id: boot_code
    size: 390
    -label: BootCode
    doc: Code that a PC runs when it starts from this volume; F4 where there is none.
  - id: signature
    size: 2
    -label: BootSignature
    -unit: hex
    valid: "[0x55, 0xaa]"
    doc: 55 AA at byte 510, whatever the sector size.
instances:
  bytes_per_sector:
    value: (1 << (sector_shift & 15)).as<u8>
    -label: bytes per sector
    -unit: bytes
    doc: Computed from BytesPerSectorShift.
  bytes_per_cluster:
    value: (bytes_per_sector * (1 << (cluster_shift & 31)).as<u8>).as<u8>
    -label: bytes per cluster
    -unit: bytes
    doc: Computed from both shifts.
