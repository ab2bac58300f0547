meta:
  id: bsd_label
  title: BSD disklabel
  endian: le
  -kinds: [partition map]
doc: Disklabel of a BSD disk or slice, little endian as on x86.
doc-ref: util-linux, include/pt-bsd.h
seq:
  - id: magic
    contents: [0x57, 0x45, 0x56, 0x82]
    -label: d_magic
    -unit: hex
    doc: Marks the label.
  - id: drive_type
    type: u2
    -label: d_type
    -unit: dec
    doc: Kind of drive.
  - id: drive_subtype
    type: u2
    -label: d_subtype
    -unit: dec
    doc: Kind of controller.
  - id: type_name
    size: 16
    -label: d_typename
    -unit: ascii
    doc: Name of the drive type.
  - id: pack_name
    size: 16
    -label: d_packname
    -unit: ascii
    doc: Name of the disk.
  - id: sector_bytes
    type: u4
    -label: d_secsize
    -unit: bytes
    doc: Bytes per sector.
  - id: sectors_per_track
    type: u4
    -label: d_nsectors
    -unit: dec
    doc: Sectors per track.
  - id: tracks_per_cylinder
    type: u4
    -label: d_ntracks
    -unit: dec
    doc: Tracks per cylinder.
  - id: cylinders
    type: u4
    -label: d_ncylinders
    -unit: dec
    doc: Cylinders.
  - id: sectors_per_cylinder
    type: u4
    -label: d_secpercyl
    -unit: dec
    doc: Sectors per cylinder.
  - id: sectors_per_unit
    type: u4
    -label: d_secperunit
    -unit: sectors
    doc: Sectors of the disk or slice.
  - id: spares_per_track
    type: u2
    -label: d_sparespertrack
    -unit: dec
    doc: Spare sectors per track.
  - id: spares_per_cylinder
    type: u2
    -label: d_sparespercyl
    -unit: dec
    doc: Spare sectors per cylinder.
  - id: alternate_cylinders
    type: u4
    -label: d_acylinders
    -unit: dec
    doc: Alternate cylinders.
  - id: rpm
    type: u2
    -label: d_rpm
    -unit: dec
    doc: Rotations per minute.
  - id: interleave
    type: u2
    -label: d_interleave
    -unit: dec
    doc: Interleave.
  - id: track_skew
    type: u2
    -label: d_trackskew
    -unit: dec
    doc: Skew between tracks.
  - id: cylinder_skew
    type: u2
    -label: d_cylskew
    -unit: dec
    doc: Skew between cylinders.
  - id: head_switch
    type: u4
    -label: d_headswitch
    -unit: dec
    doc: Time to switch heads, microseconds.
  - id: track_seek
    type: u4
    -label: d_trkseek
    -unit: dec
    doc: Time to step a track, microseconds.
  - id: flags
    type: u4
    -label: d_flags
    -unit: hex
    doc: Flags of the drive.
  - id: drive_data
    size: 20
    -label: d_drivedata
    -unit: hex
    doc: Data of the drive type.
  - id: spare
    size: 20
    -label: d_spare
    -unit: hex
    doc: Reserved.
  - id: magic_2
    type: u4
    -label: d_magic2
    -unit: hex
    doc: The magic number again.
  - id: checksum
    type: u2
    -label: d_checksum
    -unit: hex
    doc: Makes the XOR of all 16-bit words of the label zero.
  - id: partition_count
    type: u2
    -label: d_npartitions
    -unit: dec
    doc: Slots that follow; 8 or 16 in practice.
  - id: boot_area_bytes
    type: u4
    -label: d_bbsize
    -unit: bytes
    doc: Bytes of the boot area.
  - id: superblock_bytes
    type: u4
    -label: d_sbsize
    -unit: bytes
    doc: Largest size of a superblock.
  - id: partitions
    type: partition
    repeat: expr
    repeat-expr: "partition_count < 16 ? partition_count : 16"
    -label: d_partitions
    doc: Slots a, b, c and so on; c stands for the whole disk or slice.
types:
  partition:
    seq:
      - id: sectors
        type: u4
        -label: p_size
        -unit: sectors
        doc: Sectors of the partition.
      - id: first
        type: u4
        -label: p_offset
        -unit: dec
        doc: First sector, counted from the disk, or from the slice where slot c starts at 0.
      - id: fragment_bytes
        type: u4
        -label: p_fsize
        -unit: bytes
        doc: Bytes per fragment of the file system.
      - id: type
        type: u1
        -label: p_fstype
        -unit: hex
        -values: {0x00: "unused", 0x01: "swap", 0x02: "Version 6 file system", 0x03: "Version 7 file system", 0x04: "System V file system", 0x05: "4.1BSD file system", 0x06: "Version 8 file system", 0x07: "BSD fast file system", 0x08: "FAT file system", 0x09: "log-structured file system", 0x0a: "another file system", 0x0b: "HPFS", 0x0c: "ISO 9660", 0x0d: "boot area", 0x0e: "ADOS file system", 0x0f: "HFS", 0x10: "AdvFS"}
        doc: File system.
      - id: fragments_per_block
        type: u1
        -label: p_frag
        -unit: dec
        doc: Fragments per block of the file system.
      - id: cylinders_per_group
        type: u2
        -label: p_cpg
        -unit: dec
        doc: Cylinders per group of the file system.
