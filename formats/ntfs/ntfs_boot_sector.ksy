meta:
  id: ntfs_boot_sector
  title: NTFS boot sector
  endian: le
  -kinds: [boot sector, volume header]
doc: |
  First sector of an NTFS volume, and its copy in the last sector of the partition. It gives the measures from which every other
  address follows: sector, cluster and record size, and where the file table lies.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct NTFS_BOOT; NTFS-3G libntfs-3g/bootsect.c
seq:
  - id: jump
    size: 3
    -label: Jump
    doc: Jump to the boot code, usually EB 52 90. Not needed to read the volume.
  - id: oem_id
    type: str
    size: 8
    encoding: ASCII
    -label: OEM id
    doc: The letters NTFS and four blanks. Drivers require it.
    valid: '"NTFS    "'
  - id: bytes_per_sector
    type: u2
    -label: Bytes per sector
    -unit: bytes
    doc: 512, 1024, 2048 or 4096.
  - id: cluster_size_code
    type: u1
    -label: Sectors per cluster
    -unit: dec
    doc: 1 to 128 is the number itself; 240 to 253 stands for 2 to the power of 256 minus the value.
  - id: reserved_sectors
    type: u2
    -label: Reserved sectors
    doc: Used by FAT; zero here.
  - id: fats
    type: u1
    -label: Number of FATs
    doc: Used by FAT; zero here.
  - id: root_entries
    type: u2
    -label: Root entries
    doc: Used by FAT; zero here.
  - id: sectors_16
    type: u2
    -label: Sectors (16 bits)
    doc: Used by FAT; zero here.
  - id: media
    type: u1
    -label: Media descriptor
    -unit: hex
    doc: F8 for a fixed disk. For information only.
  - id: sectors_per_fat
    type: u2
    -label: Sectors per FAT
    doc: Used by FAT; zero here.
  - id: sectors_per_track
    type: u2
    -label: Sectors per track
    doc: Geometry for old firmware.
  - id: heads
    type: u2
    -label: Heads
    doc: Geometry for old firmware.
  - id: hidden_sectors
    type: u4
    -label: Hidden sectors
    -unit: sectors
    doc: Sectors before the volume, that is the first LBA of its partition when it was formatted.
  - id: sectors_32
    type: u4
    -label: Large sectors
    doc: Used by FAT; zero here.
  - id: drive_number
    type: u1
    -label: Drive number
    -unit: hex
    doc: Number by which old firmware knows the disk; 80 is the first one.
  - id: current_head
    type: u1
    -label: Current head
    doc: Zero.
  - id: extended_signature
    type: u1
    -label: Extended boot signature
    -unit: hex
    doc: Usually 80.
  - id: reserved_2
    type: u1
    -label: Reserved
    doc: Zero.
  - id: total_sectors
    type: u8
    -label: Total sectors
    -unit: sectors
    doc: Sectors of the volume. The last sector of the partition is not counted; it holds the copy of this sector.
  - id: mft_cluster
    type: u8
    -label: Cluster of $MFT
    -unit: dec
    -link: cluster
    -format: ntfs_file_record
    doc: Where the file table begins.
  - id: mirror_cluster
    type: u8
    -label: Cluster of $MFTMirr
    -unit: dec
    -link: cluster
    -format: ntfs_file_record
    doc: Where the copy of the first file records begins.
  - id: record_size_code
    type: s1
    -label: Clusters per file record
    -unit: signed
    doc: A positive value counts clusters; a negative one stands for 2 to the power of its amount, in bytes. F6 is 1024 bytes.
  - id: reserved_3
    size: 3
    -label: Reserved
    doc: Zero.
  - id: index_size_code
    type: s1
    -label: Clusters per index block
    -unit: signed
    doc: As for file records. F4 is 4096 bytes.
  - id: reserved_4
    size: 3
    -label: Reserved
    doc: Zero.
  - id: serial_number
    type: u8
    -label: Volume serial number
    -unit: hex
    doc: Chosen by the formatter.
  - id: checksum
    type: u4
    -label: Checksum
    -unit: hex
    doc: Not used; formatters leave it zero.
  - id: boot_code
    size: 426
    -label: Boot code
    doc: Program that starts the system. Not needed to read the volume.
  - id: end_marker
    size: 2
    -label: End marker
    doc: 55 AA. Drivers accept its absence.
instances:
  sectors_per_cluster:
    value: '(cluster_size_code <= 128 ? cluster_size_code : cluster_size_code >= 240 ? 1 << (256 - cluster_size_code) : 0).as<s4>'
    -label: Sectors per cluster, computed
    -unit: dec
    doc: 0 where the byte is illegal.
  cluster_size:
    value: (bytes_per_sector * sectors_per_cluster).as<s4>
    -label: Cluster size
    -unit: bytes
    doc: Bytes per sector times sectors per cluster.
  record_size:
    value: '(record_size_code > 0 ? record_size_code * cluster_size : record_size_code >= -31 ? 1 << (0 - record_size_code) : 0).as<s4>'
    -label: File record size
    -unit: bytes
    doc: Usually 1024; 4096 on disks with sectors of 4096 bytes.
  index_size:
    value: '(index_size_code > 0 ? index_size_code * cluster_size : index_size_code >= -31 ? 1 << (0 - index_size_code) : 0).as<s4>'
    -label: Index block size
    -unit: bytes
    doc: Usually 4096.
