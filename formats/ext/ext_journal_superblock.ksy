meta:
  id: ext_journal_superblock
  title: 'ext journal superblock'
  endian: be
  -kinds: [journal]
doc: 'The first block of a journal (jbd2), big endian.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, journal (jbd2)'
seq:
  - id: h_magic
    type: u4
    -unit: hex
    valid: 0xC03B3998
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
  - id: s_blocksize
    type: u4
    -label: 's_blocksize'
    doc: 'Bytes per block; that of the volume.'
  - id: s_maxlen
    type: u4
    -label: 's_maxlen'
    doc: 'Blocks of the journal.'
  - id: s_first
    type: u4
    -label: 's_first'
    doc: 'First block of the log.'
  - id: s_sequence
    type: u4
    -label: 's_sequence'
    doc: 'First sequence expected in the log.'
  - id: s_start
    type: u4
    -label: 's_start'
    doc: 'Block where the log starts; 0 is empty.'
  - id: s_errno
    type: u4
    -unit: signed
    -label: 's_errno'
    doc: 'Error of the journal.'
  - id: s_feature_compat
    type: u4
    -unit: flags
    -flags: {0x1: "data checksums"}
    -label: 's_feature_compat'
    doc: 'Compatible features.'
  - id: s_feature_incompat
    type: u4
    -unit: flags
    -flags: {0x1: "revoke", 0x2: "64bit", 0x4: "async commit", 0x8: "checksum v2", 0x10: "checksum v3", 0x20: "fast commit"}
    -label: 's_feature_incompat'
    doc: 'Incompatible features.'
  - id: s_feature_ro_compat
    type: u4
    -unit: hex
    -label: 's_feature_ro_compat'
    doc: 'Read-only features; none is defined.'
  - id: s_uuid
    size: 16
    -unit: uuid
    -label: 's_uuid'
    doc: 'Identity of the journal.'
  - id: s_nr_users
    type: u4
    -label: 's_nr_users'
    doc: 'File systems that use it.'
  - id: s_dynsuper
    type: u4
    -label: 's_dynsuper'
    doc: 'Block of the dynamic superblock.'
  - id: s_max_transaction
    type: u4
    -label: 's_max_transaction'
    doc: 'Most blocks of a transaction.'
  - id: s_max_trans_data
    type: u4
    -label: 's_max_trans_data'
    doc: 'Most data blocks of a transaction.'
  - id: s_checksum_type
    type: u1
    -label: 's_checksum_type'
    doc: 'Kind of the checksums: 4 is CRC-32C.'
  - id: s_padding2
    size: 3
    -label: 's_padding2'
    doc: 'Padding.'
  - id: s_num_fc_blocks
    type: u4
    -label: 's_num_fc_blocks'
    doc: 'Fast commit blocks.'
  - id: s_head
    type: u4
    -label: 's_head'
    doc: 'Head of the log where it is known.'
  - id: s_padding
    size: 160
    -label: 's_padding'
    doc: 'Padding.'
  - id: s_checksum
    type: u4
    -unit: hex
    -label: 's_checksum'
    doc: 'CRC-32C of the superblock with this field zero.'
  - id: s_users
    size: 768
    -label: 's_users'
    doc: 'Identities of the users.'
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
