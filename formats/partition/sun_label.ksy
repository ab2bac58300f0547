meta:
  id: sun_label
  title: Sun disk label
  endian: be
  -kinds: [partition map]
doc: Label of a Sun disk in sector 0.
doc-ref: util-linux, include/pt-sun.h
seq:
  - id: text
    size: 128
    -label: label text
    -unit: ascii
    doc: Description of the disk, for people.
  - id: vtoc_version
    type: u4
    -label: version
    -unit: dec
    doc: Version of the table of tags; 1.
  - id: volume_name
    size: 8
    -label: volume
    -unit: ascii
    doc: Name of the volume.
  - id: slice_count
    type: u2
    -label: nparts
    -unit: dec
    doc: Number of slices; 8.
  - id: tags
    type: tag
    repeat: expr
    repeat-expr: 8
    -label: infos
    doc: Tag and flags of each slice.
  - id: unused_1
    size: 14
    -label: reserved
    -unit: hex
    doc: Reserved.
  - id: sanity
    type: u4
    -label: sanity
    -unit: hex
    -values: {0x600ddeee: "the table of tags is valid"}
    doc: Says that the table of tags is valid.
  - id: unused_2
    size: 228
    -label: reserved
    -unit: hex
    doc: Reserved.
  - id: rpm
    type: u2
    -label: rspeed
    -unit: dec
    doc: Rotations per minute.
  - id: physical_cylinders
    type: u2
    -label: pcylcount
    -unit: dec
    doc: Physical cylinders.
  - id: extra_sectors
    type: u2
    -label: sparecyl
    -unit: dec
    doc: Extra sectors per cylinder.
  - id: unused_3
    type: u2
    -label: obs1
    -unit: dec
    doc: Not used.
  - id: unused_4
    type: u2
    -label: obs2
    -unit: dec
    doc: Not used.
  - id: interleave
    type: u2
    -label: ilfact
    -unit: dec
    doc: Interleave.
  - id: data_cylinders
    type: u2
    -label: ncyl
    -unit: dec
    doc: Data cylinders.
  - id: alternate_cylinders
    type: u2
    -label: nacyl
    -unit: dec
    doc: Alternate cylinders.
  - id: heads
    type: u2
    -label: nhead
    -unit: dec
    doc: Heads, which with the sectors per track turn cylinders into sectors.
  - id: sectors_per_track
    type: u2
    -label: nsect
    -unit: dec
    doc: Sectors per track.
  - id: unused_5
    type: u2
    -label: obs3
    -unit: dec
    doc: Not used.
  - id: unused_6
    type: u2
    -label: obs4
    -unit: dec
    doc: Not used.
  - id: slices
    type: slice
    repeat: expr
    repeat-expr: 8
    -label: partitions
    doc: Eight slices.
  - id: magic
    contents: [0xda, 0xbe]
    -label: magic
    -unit: hex
    doc: Marks the label.
  - id: checksum
    type: u2
    -label: csum
    -unit: hex
    doc: Makes the XOR of all 16-bit words of the sector zero.
types:
  tag:
    seq:
      - id: tag
        type: u2
        -label: id
        -unit: hex
        -values: {0x00: "unassigned", 0x01: "boot", 0x02: "root", 0x03: "swap", 0x04: "/usr", 0x05: "whole disk", 0x06: "stand", 0x07: "/var", 0x08: "/home", 0x09: "alternate sectors", 0x0a: "cache file system", 0x0b: "reserved", 0x82: "Linux swap", 0x83: "Linux file system", 0x8e: "Linux LVM", 0xfd: "Linux software RAID member"}
        doc: What the slice is for.
      - id: flags
        type: u2
        -label: flags
        -unit: flags
        -flags: {0x1: "not mountable", 0x10: "read-only"}
        doc: Flags of the slice.
  slice:
    seq:
      - id: first_cylinder
        type: u4
        -label: start_cylinder
        -unit: dec
        doc: First cylinder.
      - id: sectors
        type: u4
        -label: num_sectors
        -unit: sectors
        doc: Sectors of the slice.
    instances:
      first_lba:
        value: (first_cylinder.as<u8> * _root.heads * _root.sectors_per_track).as<u8>
        -label: first sector
        -unit: lba
        -link: lba
        doc: First sector, from cylinder, heads and sectors per track.
