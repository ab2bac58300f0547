meta:
  id: ext_hash_tree_root
  title: 'ext hash tree root'
  endian: le
  -kinds: [directory-block]
doc: 'First block of a directory with a hash tree.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, hash tree directories'
params:
  - id: has_tail
    type: u4
    doc: '1 where the node ends with a checksum.'
seq:
  - id: dot_inode
    type: u4
    -link: record
    -format: ext_inode
    -label: 'dot.inode'
    doc: 'This directory.'
  - id: dot_rec_len
    type: u2
    -label: 'dot.rec_len'
    doc: '12.'
  - id: dot_name_len
    type: u1
    -label: 'dot.name_len'
    doc: '1.'
  - id: dot_file_type
    type: u1
    -label: 'dot.file_type'
    doc: '2, directory.'
  - id: dot_name
    size: 4
    -unit: ascii
    -label: 'dot.name'
    doc: '".".'
  - id: dotdot_inode
    type: u4
    -link: record
    -format: ext_inode
    -label: 'dotdot.inode'
    doc: 'The directory above.'
  - id: dotdot_rec_len
    type: u2
    -label: 'dotdot.rec_len'
    doc: 'Rest of the block.'
  - id: dotdot_name_len
    type: u1
    -label: 'dotdot.name_len'
    doc: '2.'
  - id: dotdot_file_type
    type: u1
    -label: 'dotdot.file_type'
    doc: '2, directory.'
  - id: dotdot_name
    size: 4
    -unit: ascii
    -label: 'dotdot_name'
    doc: '"..".'
  - id: reserved_zero
    type: u4
    -unit: hex
    -label: 'reserved_zero'
    doc: 'Zero.'
  - id: hash_version
    type: u1
    enum: hash_kind
    -label: 'hash_version'
    doc: 'Kind of the hash.'
  - id: info_length
    type: u1
    -label: 'info_length'
    doc: '8.'
  - id: indirect_levels
    type: u1
    -label: 'indirect_levels'
    doc: 'Levels of nodes below the root; 0 where it points at blocks of names.'
  - id: unused_flags
    type: u1
    -label: 'unused_flags'
    doc: 'Not used.'
  - id: limit
    type: u2
    -label: 'limit'
    doc: 'Entries that have room, the first of which holds limit and count.'
  - id: count
    type: u2
    -label: 'count'
    doc: 'Entries in use.'
  - id: block
    type: u4
    -label: 'block'
    doc: 'Block of the directory with the lowest hashes.'
  - id: entries
    type: pair
    repeat: expr
    repeat-expr: '(count < 1 or count > limit or count * 8 > _io.size ? 0 : count - 1)'
    -label: 'dx_entry'
    doc: 'Other blocks by rising hash.'
  - id: unused
    size: '_io.size - _io.pos - (has_tail != 0 and 32 + 8 * limit + 8 <= _io.size ? _io.size - 32 - 8 * limit : 0)'
    -label: 'Unused'
    doc: 'Entries that are not in use.'
  - id: dt_reserved
    type: u4
    if: 'has_tail != 0 and 32 + 8 * limit + 8 <= _io.size'
    -unit: hex
    -label: 'dt_reserved'
    doc: 'Zero.'
  - id: dt_checksum
    type: u4
    if: 'has_tail != 0 and 32 + 8 * limit + 8 <= _io.size'
    -unit: hex
    -label: 'dt_checksum'
    doc: 'CRC-32C of the entries in use, from the inode''s seed; with metadata_csum.'
types:
  pair:
    doc: 'A hash and the block of the directory from which names with this and higher hashes stand.'
    seq:
      - id: hash
        type: u4
        -unit: hex
        -label: 'hash'
        doc: 'Lowest hash.'
      - id: block
        type: u4
        -label: 'block'
        doc: 'Block of the directory.'
enums:
  hash_kind:
    0:
      id: legacy
      -label: 'Legacy'
    1:
      id: half_md4
      -label: 'Half MD4'
    2:
      id: tea
      -label: 'TEA'
    3:
      id: legacy_unsigned
      -label: 'Legacy, unsigned'
    4:
      id: half_md4_unsigned
      -label: 'Half MD4, unsigned'
    5:
      id: tea_unsigned
      -label: 'TEA, unsigned'
    6:
      id: siphash
      -label: 'SipHash'
