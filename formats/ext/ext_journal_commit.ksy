meta:
  id: ext_journal_commit
  title: 'ext journal commit block'
  endian: be
  -kinds: [journal-block]
doc: 'Ends a transaction, big endian.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, journal (jbd2)'
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
  - id: h_chksum_type
    type: u1
    -label: 'h_chksum_type'
    doc: 'Kind of the checksum of compatible feature 1.'
  - id: h_chksum_size
    type: u1
    -label: 'h_chksum_size'
    doc: 'Bytes of that checksum.'
  - id: h_padding
    size: 2
    -label: 'h_padding'
    doc: 'Padding.'
  - id: h_chksum
    type: u4
    -unit: hex
    -label: 'h_chksum'
    doc: 'CRC-32C of the block with this field zero, from the identity of the journal; version 2 or 3.'
  - id: h_chksum_more
    size: 28
    -label: 'h_chksum[1..7]'
    doc: 'Not used.'
  - id: h_commit_sec
    type: u8
    -label: 'h_commit_sec'
    doc: 'Time of the commit, seconds since 1970.'
  - id: h_commit_nsec
    type: u4
    -label: 'h_commit_nsec'
    doc: 'Nanoseconds of that time.'
  - id: unused
    size: '_io.size - _io.pos'
    -label: 'Unused'
    doc: 'Rest of the block.'
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
