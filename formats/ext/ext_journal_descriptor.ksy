meta:
  id: ext_journal_descriptor
  title: 'ext journal descriptor block'
  endian: be
  -kinds: [journal-block]
doc: 'Names the blocks of the volume whose copies follow in the journal, big endian.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, journal (jbd2)'
params:
  - id: tag_size
    type: u4
    doc: 'Bytes of a tag: 8, 10, 12, 14 or 16, by the features of the journal.'
  - id: has_tail
    type: u4
    doc: '1 where the block ends with a checksum.'
seq:
  - id: h_magic
    type: u4
    valid: 0xC03B3998
    -unit: hex
    -label: 'h_magic'
    doc: 'C03B3998 in every block of the journal''s own.'
  - id: h_blocktype
    type: u4
    enum: block_type
    -label: 'h_blocktype'
    doc: 'Kind of the block.'
  - id: h_sequence
    type: u4
    -label: 'h_sequence'
    doc: 'Sequence of the transaction.'
  - id: tags
    type: tag
    repeat: until
    repeat-until: '_.is_last or _io.size - _io.pos < tag_size'
    -label: 'journal_block_tag_s'
    doc: 'One tag for each block that follows.'
  - id: unused
    size: '_io.size - _io.pos - (has_tail != 0 and _io.size - _io.pos >= 4 ? 4 : 0)'
    -label: 'Unused'
    doc: 'Room that is not used.'
  - id: t_checksum
    type: u4
    if: 'has_tail != 0 and _io.size - _io.pos >= 4'
    -unit: hex
    -label: 't_checksum'
    doc: 'CRC-32C of the block with this field zero, from the identity of the journal; with checksums of version 2 or 3.'
types:
  tag:
    doc: 'A block of the volume that is logged in the next block of the journal.'
    seq:
      - id: t_blocknr
        type: u4
        -link: cluster
        -label: 't_blocknr'
        doc: 'Block of the volume, low 32 bits.'
      - id: old
        type: old_tag
        if: '_root.tag_size != 16'
        -label: 'Checksum and flags'
        doc: 'With checksums of version 2 or none.'
      - id: t_flags
        type: u4
        if: '_root.tag_size == 16'
        -unit: flags
        -flags: {0x1: "first four bytes replaced", 0x2: "same identity as before", 0x4: "deleted", 0x8: "last"}
        -label: 't_flags'
        doc: 'How the block was logged.'
      - id: t_blocknr_high
        type: u4
        if: '_root.tag_size >= 12'
        -label: 't_blocknr_high'
        doc: 'Block of the volume, high 32 bits.'
      - id: t_checksum
        type: u4
        if: '_root.tag_size == 16'
        -unit: hex
        -label: 't_checksum'
        doc: 'CRC-32C of sequence and logged block, from the identity of the journal; version 3.'
      - id: room
        size: 2
        if: '_root.tag_size == 10 or _root.tag_size == 14'
        -label: 'Padding'
        doc: 'Two bytes more with checksums of version 2.'
      - id: uuid
        size: 16
        if: 'not is_same_identity'
        -unit: uuid
        -label: 'uuid'
        doc: 'Identity of the volume; stands behind the first tag only.'
    instances:
      flags:
        value: '_root.tag_size == 16 ? t_flags : old.t_flags'
        doc: 'The flags of either form.'
      is_same_identity:
        value: '(flags & 2) != 0'
        doc: 'Whether no identity follows.'
      is_last:
        value: '(flags & 8) != 0'
        doc: 'Whether it is the last tag.'
  old_tag:
    doc: 'Sixteen bits each of checksum and flags.'
    seq:
      - id: t_checksum
        type: u2
        -unit: hex
        -label: 't_checksum'
        doc: 'Low 16 bits of the checksum; version 2.'
      - id: t_flags
        type: u2
        -unit: flags
        -flags: {0x1: "first four bytes replaced", 0x2: "same identity as before", 0x4: "deleted", 0x8: "last"}
        -label: 't_flags'
        doc: 'How the block was logged.'
enums:
  block_type:
    1:
      id: descriptor
      -label: 'Descriptor'
    2:
      id: commit
      -label: 'Commit'
    3:
      id: superblock_version_1
      -label: 'Superblock version 1'
    4:
      id: superblock_version_2
      -label: 'Superblock version 2'
    5:
      id: revocation
      -label: 'Revocation'
