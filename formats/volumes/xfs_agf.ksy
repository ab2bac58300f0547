meta:
  id: xfs_agf
  title: 'XFS free space header (AGF)'
  endian: be
  -kinds: [group-header]
doc: 'Second sector of an allocation group: roots of the free space trees and counts.'
doc-ref: 'measured on volumes made by mkfs.xfs 6.1'
seq:
  - id: agf_magicnum
    type: strz
    size: 4
    encoding: ASCII
    -label: 'agf_magicnum'
    doc: '"XAGF".'
  - id: agf_versionnum
    type: u4
    -label: 'agf_versionnum'
    doc: '1.'
  - id: agf_seqno
    type: u4
    -label: 'agf_seqno'
    doc: 'Number of the group.'
  - id: agf_length
    type: u4
    -label: 'agf_length'
    doc: 'Blocks of the group.'
  - id: agf_bno_root
    type: u4
    -label: 'agf_bno_root'
    doc: 'Root of the tree by block.'
  - id: agf_cnt_root
    type: u4
    -label: 'agf_cnt_root'
    doc: 'Root of the tree by count.'
  - id: agf_rmap_root
    type: u4
    -label: 'agf_rmap_root'
    doc: 'Root of the reverse map.'
  - id: agf_bno_level
    type: u4
    -label: 'agf_bno_level'
    doc: 'Levels of the tree by block.'
  - id: agf_cnt_level
    type: u4
    -label: 'agf_cnt_level'
    doc: 'Levels of the tree by count.'
  - id: agf_rmap_level
    type: u4
    -label: 'agf_rmap_level'
    doc: 'Levels of the reverse map.'
  - id: agf_flfirst
    type: u4
    -label: 'agf_flfirst'
    doc: 'First entry of the free list.'
  - id: agf_fllast
    type: u4
    -label: 'agf_fllast'
    doc: 'Last entry of the free list.'
  - id: agf_flcount
    type: u4
    -label: 'agf_flcount'
    doc: 'Blocks in the free list.'
  - id: agf_freeblks
    type: u4
    -label: 'agf_freeblks'
    doc: 'Free blocks.'
  - id: agf_longest
    type: u4
    -label: 'agf_longest'
    doc: 'Longest free run.'
  - id: agf_btreeblks
    type: u4
    -label: 'agf_btreeblks'
    doc: 'Blocks of the free space trees beyond their roots.'
  - id: agf_uuid
    size: 16
    -unit: uuid
    -label: 'agf_uuid'
    doc: 'Identity of the volume.'
  - id: agf_rmap_blocks
    type: u4
    -label: 'agf_rmap_blocks'
    doc: 'Blocks of the reverse map.'
  - id: agf_refcount_blocks
    type: u4
    -label: 'agf_refcount_blocks'
    doc: 'Blocks of the reference counts.'
  - id: agf_refcount_root
    type: u4
    -label: 'agf_refcount_root'
    doc: 'Root of the reference counts.'
  - id: agf_refcount_level
    type: u4
    -label: 'agf_refcount_level'
    doc: 'Levels of the reference counts.'
  - id: agf_spare
    size: 112
    -label: 'agf_spare'
    doc: 'Spare.'
  - id: agf_lsn
    type: u8
    -unit: hex
    -label: 'agf_lsn'
    doc: 'Last log sequence.'
  - id: agf_crc
    type: u4le
    -unit: hex
    -label: 'agf_crc'
    doc: 'CRC-32C of the sector with this field zero; little endian.'
