meta:
  id: ext_journal_revocation
  title: 'ext journal revocation block'
  endian: be
  -kinds: [journal-block]
doc: 'Names blocks whose older copies in the journal must not be replayed, big endian.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, journal (jbd2)'
params:
  - id: wide
    type: u4
    doc: '1 where block numbers have 64 bits.'
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
  - id: r_count
    type: u4
    -label: 'r_count'
    doc: 'Bytes in use in this block, the head included.'
  - id: narrow
    type: u4
    repeat: expr
    repeat-expr: '(r_count < 16 or r_count > _io.size ? 0 : (r_count - 16) / 4)'
    if: 'wide == 0'
    -link: cluster
    -label: 'Block'
    doc: 'Revoked blocks.'
  - id: wide_numbers
    type: u8
    repeat: expr
    repeat-expr: '(r_count < 16 or r_count > _io.size ? 0 : (r_count - 16) / 8)'
    if: 'wide != 0'
    -link: cluster
    -label: 'Block'
    doc: 'Revoked blocks, with 64bit.'
  - id: unused
    size: '_io.size - _io.pos - (has_tail != 0 and _io.size - _io.pos >= 4 ? 4 : 0)'
    -label: 'Unused'
    doc: 'Room that is not used.'
  - id: r_checksum
    type: u4
    if: 'has_tail != 0 and _io.size - _io.pos >= 4'
    -unit: hex
    -label: 'r_checksum'
    doc: 'CRC-32C of the block with this field zero, from the identity of the journal; with checksums of version 2 or 3.'
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
