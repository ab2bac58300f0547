meta:
  id: fat_directory
  title: FAT directory entries
  endian: le
  -kinds: [directory, directory entry]
doc: >-
  Slots of 32 bytes. A file has one 8.3 entry, before it the slots of its long name, the last part first. The first byte 00 ends the
  directory, E5 marks a deleted slot.
doc-ref: Microsoft FAT specification (2005-08-30), "FAT Directory Structure" and "Long File Name Implementation (optional)"
seq:
  - id: slots
    type: slot
    size: 32
    repeat: eos
    -label: slots
    doc: Slots in the order of the directory.
types:
  slot:
    seq:
      - id: body
        -label: entry
        doc: Long-name slot or 8.3 entry, as the attributes say.
        type:
          switch-on: is_long
          cases:
            true: long_name
            false: entry
    instances:
      attributes_ahead:
        pos: 11
        type: u1
        -label: attributes, read ahead
        -unit: hex
        doc: The attribute byte of the slot, which tells long-name slots (0F) from 8.3 entries.
      is_long:
        value: (attributes_ahead & 0x3f) == 0x0f
        -label: long-name slot
        doc: Whether the slot is a part of a long name.
  entry:
    seq:
      - id: name
        size: 8
        -label: DIR_Name, base
        -unit: ascii
        doc: Base name, padded with spaces. First byte 00 ends the directory, E5 deleted, 05 stands for E5.
      - id: extension
        size: 3
        -label: DIR_Name, extension
        -unit: ascii
        doc: Extension, padded with spaces.
      - id: attributes
        type: u1
        -label: DIR_Attr
        -unit: flags
        -flags: {0x01: read-only, 0x02: hidden, 0x04: system, 0x08: volume label, 0x10: directory, 0x20: archive}
        doc: Attributes; bits 6 and 7 are reserved.
      - id: case_bits
        type: u1
        -label: DIR_NTRes
        -unit: flags
        -flags: {0x08: base name in lower case, 0x10: extension in lower case}
        doc: Reserved by the specification; Windows NT and Linux keep the case of 8.3 names here.
      - id: created_tenths
        type: u1
        -label: DIR_CrtTimeTenth
        -unit: dec
        doc: Hundredths of a second to add to the time of creation, 0 to 199.
      - id: created_time
        type: u2
        -label: DIR_CrtTime
        -unit: dos-time
        doc: Time of creation, local, in steps of two seconds; 0 where not kept.
      - id: created_date
        type: u2
        -label: DIR_CrtDate
        -unit: dos-date
        doc: Date of creation, local; 0 where not kept.
      - id: accessed_date
        type: u2
        -label: DIR_LstAccDate
        -unit: dos-date
        doc: Date of the last access, local; 0 where not kept.
      - id: cluster_high
        type: u2
        -label: DIR_FstClusHI
        -unit: hex
        doc: High word of the first cluster on FAT32; 0, and to be ignored, on FAT12 and FAT16.
      - id: written_time
        type: u2
        -label: DIR_WrtTime
        -unit: dos-time
        doc: Time of the last write, local, in steps of two seconds.
      - id: written_date
        type: u2
        -label: DIR_WrtDate
        -unit: dos-date
        doc: Date of the last write, local.
      - id: cluster_low
        type: u2
        -label: DIR_FstClusLO
        -unit: hex
        doc: Low word of the first cluster; 0 for an empty file, and in ".." for the root directory.
      - id: size
        type: u4
        -label: DIR_FileSize
        -unit: bytes
        doc: Length of the file in bytes; 0 for a directory.
    instances:
      first_cluster:
        value: (cluster_high.as<u8> * 65536 + cluster_low).as<u8>
        -label: first cluster
        -unit: dec
        -link: cluster
        doc: First cluster, from both words.
  long_name:
    seq:
      - id: order
        type: u1
        -label: LDIR_Ord
        -unit: hex
        doc: Number of the part, 1 to 20; 40 is added in the last part, which stands first. E5 in a deleted slot.
      - id: name_1
        type: str
        size: 10
        encoding: UTF-16LE
        -label: LDIR_Name1
        doc: Characters 1 to 5.
      - id: attributes
        type: u1
        -label: LDIR_Attr
        -unit: hex
        doc: 0F marks a long-name slot.
      - id: type
        type: u1
        -label: LDIR_Type
        -unit: hex
        doc: 0 for a part of a name.
      - id: checksum
        type: u1
        -label: LDIR_Chksum
        -unit: hex
        doc: Checksum of the 11 bytes of the 8.3 name; the same in all parts.
      - id: name_2
        type: str
        size: 12
        encoding: UTF-16LE
        -label: LDIR_Name2
        doc: Characters 6 to 11.
      - id: cluster_low
        type: u2
        -label: LDIR_FstClusLO
        -unit: hex
        doc: Always 0.
      - id: name_3
        type: str
        size: 4
        encoding: UTF-16LE
        -label: LDIR_Name3
        doc: Characters 12 and 13. After the end of the name stands one 0000, then FFFF.
