meta:
  id: sgi_label
  title: SGI volume header
  endian: be
  -kinds: [partition map]
doc: Label of an SGI disk in sector 0.
doc-ref: util-linux, include/pt-sgi.h
seq:
  - id: magic
    contents: [0x0b, 0xe5, 0xa9, 0x41]
    -label: magic
    -unit: hex
    doc: Marks the label.
  - id: root_partition
    type: u2
    -label: root_part_num
    -unit: dec
    doc: Slot of the root file system.
  - id: swap_partition
    type: u2
    -label: swap_part_num
    -unit: dec
    doc: Slot of the swap area.
  - id: boot_file
    size: 16
    -label: boot_file
    -unit: ascii
    doc: File that the firmware loads.
  - id: device_parameters
    size: 48
    -label: devparam
    -unit: hex
    doc: Geometry and other parameters of the drive.
  - id: directory
    type: file
    repeat: expr
    repeat-expr: 15
    -label: volume
    doc: Files in the volume header partition.
  - id: partitions
    type: partition
    repeat: expr
    repeat-expr: 16
    -label: partitions
    doc: Sixteen slots; by convention index 8 is the volume header, index 10 the whole disk.
  - id: checksum
    type: u4
    -label: csum
    -unit: hex
    doc: Makes the sum of all 32-bit words of the sector zero.
  - id: padding
    type: u4
    -label: padding
    -unit: hex
    doc: Not used.
types:
  file:
    seq:
      - id: name
        size: 8
        -label: name
        -unit: ascii
        doc: Name of the file.
      - id: first_block
        type: u4
        -label: block_num
        -unit: lba
        -link: lba
        doc: First block of the file.
      - id: bytes
        type: u4
        -label: num_bytes
        -unit: bytes
        doc: Size of the file.
  partition:
    seq:
      - id: sectors
        type: u4
        -label: num_blocks
        -unit: sectors
        doc: Sectors of the partition.
      - id: first_lba
        type: u4
        -label: first_block
        -unit: lba
        -link: lba
        doc: First sector of the partition.
      - id: type
        type: u4
        -label: type
        -unit: hex
        -values: {0x00: "volume header", 0x01: "replacement tracks", 0x02: "replacement sectors", 0x03: "raw or swap", 0x04: "BSD file system", 0x05: "System V file system", 0x06: "whole disk", 0x07: "EFS", 0x08: "logical volume", 0x09: "raw logical volume", 0x0a: "XFS", 0x0b: "XFS log", 0x0c: "XLV volume", 0x82: "Linux swap", 0x83: "Linux file system", 0x8e: "Linux LVM", 0xfd: "Linux software RAID member"}
        doc: What the partition is for.
