meta:
  id: ext_hash_tree_node
  title: 'ext hash tree node'
  endian: le
  -kinds: [directory-block]
doc: 'Inner node of the hash tree of a directory; looks like a block without names.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, hash tree directories; the offsets of count and block are measured on a directory of two levels'
params:
  - id: has_tail
    type: u4
    doc: '1 where the node ends with a checksum.'
seq:
  - id: fake_inode
    type: u4
    -label: 'fake.inode'
    doc: 'Zero: no entry.'
  - id: fake_rec_len
    type: u2
    -label: 'fake.rec_len'
    doc: 'Bytes of the block.'
  - id: fake_name_len
    type: u1
    -label: 'name_len'
    doc: 'Zero.'
  - id: fake_file_type
    type: u1
    -label: 'file_type'
    doc: 'Zero.'
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
    size: '_io.size - _io.pos - (has_tail != 0 and 8 + 8 * limit + 8 <= _io.size ? _io.size - 8 - 8 * limit : 0)'
    -label: 'Unused'
    doc: 'Entries that are not in use.'
  - id: dt_reserved
    type: u4
    if: 'has_tail != 0 and 8 + 8 * limit + 8 <= _io.size'
    -unit: hex
    -label: 'dt_reserved'
    doc: 'Zero.'
  - id: dt_checksum
    type: u4
    if: 'has_tail != 0 and 8 + 8 * limit + 8 <= _io.size'
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
