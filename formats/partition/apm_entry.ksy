meta:
  id: apm_entry
  title: Apple partition map entry
  endian: be
  -kinds: [partition map]
doc: One entry of an Apple partition map; each takes one block, the first one block 1.
doc-ref: "Inside Macintosh: Devices, chapter 3, Partition Map Entry Record; Linux kernel, block/partitions/mac.h"
seq:
  - id: signature
    contents: "PM"
    -label: pmSig
    -unit: ascii
    doc: Marks the entry.
  - id: reserved
    type: u2
    -label: pmSigPad
    -unit: hex
    doc: Reserved.
  - id: map_blocks
    type: u4
    -label: pmMapBlkCnt
    -unit: dec
    doc: Blocks of the map, the same in every entry.
  - id: first_block
    type: u4
    -label: pmPyPartStart
    -unit: lba
    -link: lba
    doc: First block of the partition, counted from the start of the disk.
  - id: blocks
    type: u4
    -label: pmPartBlkCnt
    -unit: sectors
    doc: Blocks of the partition.
  - id: name
    size: 32
    type: strz
    encoding: ASCII
    -label: pmPartName
    doc: Name of the partition.
  - id: type
    size: 32
    type: strz
    encoding: ASCII
    -label: pmParType
    doc: Type of the partition as text.
  - id: data_first
    type: u4
    -label: pmLgDataStart
    -unit: dec
    doc: First block of data, counted from the start of the partition.
  - id: data_blocks
    type: u4
    -label: pmDataCnt
    -unit: sectors
    doc: Blocks of data.
  - id: status
    type: u4
    -label: pmPartStatus
    -unit: flags
    -flags: {0x1: "valid", 0x2: "allocated", 0x4: "in use (from memory)", 0x8: "bootable", 0x10: "readable", 0x20: "writable"}
    doc: State of the partition.
  - id: boot_first
    type: u4
    -label: pmLgBootStart
    -unit: dec
    doc: First block of boot code.
  - id: boot_bytes
    type: u4
    -label: pmBootSize
    -unit: bytes
    doc: Size of the boot code.
  - id: boot_load
    type: u4
    -label: pmBootAddr
    -unit: hex
    doc: Load address of the boot code.
  - id: boot_load_2
    type: u4
    -label: pmBootAddr2
    -unit: hex
    doc: Reserved.
  - id: boot_entry
    type: u4
    -label: pmBootEntry
    -unit: hex
    doc: Entry point of the boot code.
  - id: boot_entry_2
    type: u4
    -label: pmBootEntry2
    -unit: hex
    doc: Reserved.
  - id: boot_checksum
    type: u4
    -label: pmBootCksum
    -unit: hex
    doc: Checksum of the boot code.
  - id: processor
    size: 16
    type: strz
    encoding: ASCII
    -label: pmProcessor
    doc: Processor that the boot code is for.
  - id: rest
    size-eos: true
    -label: reserved
    -unit: hex
    doc: Not used.
