meta:
  id: fat_boot_sector
  title: FAT12 or FAT16 boot sector
  endian: le
  -kinds: [boot sector]
doc: First sector of a FAT12 or FAT16 volume. Its fields locate the FATs, the root directory and the clusters.
doc-ref: Microsoft FAT specification (2005-08-30), "Boot Sector and BPB"; field offsets as in the Linux kernel, include/uapi/linux/msdos_fs.h, struct fat_boot_sector
seq:
  - id: jump
    size: 3
    -label: BS_jmpBoot
    -unit: hex
    doc: Jump over the fields into the boot code; EB xx 90 or E9 xx xx. Readers do not need it.
  - id: oem_name
    size: 8
    -label: BS_OEMName
    -unit: ascii
    doc: Name of the system or tool that formatted the volume. Informational, it decides nothing.
  - id: bytes_per_sector
    type: u2
    -label: BPB_BytsPerSec
    -unit: bytes
    doc: Bytes per logical sector; 512, 1024, 2048 or 4096. All sector numbers of the volume count in this unit.
    valid:
      any-of: [512, 1024, 2048, 4096]
  - id: sectors_per_cluster
    type: u1
    -label: BPB_SecPerClus
    -unit: sectors
    doc: Sectors per cluster, a power of two from 1 to 128.
    valid:
      any-of: [1, 2, 4, 8, 16, 32, 64, 128]
  - id: reserved_sectors
    type: u2
    -label: BPB_RsvdSecCnt
    -unit: sectors
    doc: Sectors before the first FAT, the boot sector included. The first FAT starts at this sector.
    -link: sector
    -format: fat16_table
    valid:
      min: 1
  - id: fats
    type: u1
    -label: BPB_NumFATs
    -unit: dec
    doc: Number of FAT copies, usually 2.
    valid:
      min: 1
  - id: root_entries
    type: u2
    -label: BPB_RootEntCnt
    -unit: dec
    doc: Slots of 32 bytes in the fixed root directory, which lies after the FATs.
  - id: total_sectors_16
    type: u2
    -label: BPB_TotSec16
    -unit: sectors
    doc: Sectors of the volume, or 0 where the 32-bit field is used.
  - id: media
    type: u1
    enum: media
    -label: BPB_Media
    -unit: hex
    doc: Media descriptor. The low byte of the first FAT entry repeats it.
  - id: fat_size_16
    type: u2
    -label: BPB_FATSz16
    -unit: sectors
    doc: Sectors of one FAT.
  - id: sectors_per_track
    type: u2
    -label: BPB_SecPerTrk
    -unit: dec
    doc: Geometry for the disk calls of a PC BIOS; informational.
  - id: heads
    type: u2
    -label: BPB_NumHeads
    -unit: dec
    doc: Geometry for the disk calls of a PC BIOS; informational.
  - id: hidden_sectors
    type: u4
    -label: BPB_HiddSec
    -unit: sectors
    doc: Sectors before the volume on the medium. Should equal the start of the partition; 0 on media without a partition map.
  - id: total_sectors_32
    type: u4
    -label: BPB_TotSec32
    -unit: sectors
    doc: Sectors of the volume where the 16-bit field is 0.
  - id: drive_number
    type: u1
    -label: BS_DrvNum
    -unit: hex
    doc: Drive number for the BIOS; 00 floppy, 80 first fixed disk.
  - id: state
    type: u1
    -label: BS_Reserved1
    -unit: flags
    -flags: {0x01: not closed cleanly, 0x02: surface test wanted}
    doc: State byte. Linux and fsck.fat keep "not closed cleanly" in bit 0; bit 1 is from memory.
  - id: boot_signature
    type: u1
    -label: BS_BootSig
    -unit: hex
    doc: 29 says that the next three fields exist; 28 (from memory) that only the serial number does.
  - id: serial
    type: u4
    -label: BS_VolID
    -unit: hex
    doc: Serial number, shown as XXXX-XXXX with the high word first.
  - id: label
    size: 11
    -label: BS_VolLab
    -unit: ascii
    doc: Copy of the volume label; "NO NAME" where there is none. The label in the root directory outranks it.
  - id: type_text
    size: 8
    -label: BS_FilSysType
    -unit: ascii
    doc: Text about the type. It must never decide the type; only the number of clusters does.
  - id: boot_code
    size: 448
    -label: boot code
    doc: Code that a PC runs when it starts from this volume.
  - id: signature
    size: 2
    -label: Signature_word
    -unit: hex
    doc: 55 AA at byte 510, whatever the sector size.
    valid: "[0x55, 0xaa]"
instances:
  root_sectors:
    value: "((root_entries * 32 + bytes_per_sector - 1) / (bytes_per_sector == 0 ? 1 : bytes_per_sector)).as<u8>"
    -label: RootDirSectors
    -unit: sectors
    doc: Sectors of the fixed root directory, computed.
  first_data_sector:
    value: (reserved_sectors + fats * fat_size_16 + root_sectors).as<u8>
    -label: FirstDataSector
    -unit: sectors
    -link: sector
    doc: Sector of cluster 2, computed.
  clusters:
    value: "(((total_sectors_16 != 0 ? total_sectors_16 : total_sectors_32) - first_data_sector) / (sectors_per_cluster == 0 ? 1 : sectors_per_cluster)).as<s8>"
    -label: CountofClusters
    -unit: dec
    doc: Number of clusters, computed. Below 4085 the volume is FAT12, below 65525 FAT16, else FAT32.
enums:
  media:
    0xf0:
      id: removable
      -label: removable medium
    0xf8:
      id: fixed
      -label: fixed medium
    0xf9:
      id: floppy_f9
      -label: old floppy format F9
    0xfa:
      id: old_fa
      -label: old format FA
    0xfb:
      id: floppy_fb
      -label: old floppy format FB
    0xfc:
      id: floppy_fc
      -label: old floppy format FC
    0xfd:
      id: floppy_fd
      -label: old floppy format FD
    0xfe:
      id: floppy_fe
      -label: old floppy format FE
    0xff:
      id: floppy_ff
      -label: old floppy format FF
