meta:
  id: xfs_agi
  title: 'XFS inode header (AGI)'
  endian: be
  -kinds: [group-header]
doc: 'Third sector of an allocation group: roots of the inode trees and counts.'
doc-ref: 'measured on volumes made by mkfs.xfs 6.1'
seq:
  - id: agi_magicnum
    type: strz
    size: 4
    encoding: ASCII
    -label: 'agi_magicnum'
    doc: '"XAGI".'
  - id: agi_versionnum
    type: u4
    -label: 'agi_versionnum'
    doc: '1.'
  - id: agi_seqno
    type: u4
    -label: 'agi_seqno'
    doc: 'Number of the group.'
  - id: agi_length
    type: u4
    -label: 'agi_length'
    doc: 'Blocks of the group.'
  - id: agi_count
    type: u4
    -label: 'agi_count'
    doc: 'Inodes allocated.'
  - id: agi_root
    type: u4
    -label: 'agi_root'
    doc: 'Root of the inode tree.'
  - id: agi_level
    type: u4
    -label: 'agi_level'
    doc: 'Levels of the inode tree.'
  - id: agi_freecount
    type: u4
    -label: 'agi_freecount'
    doc: 'Free inodes.'
  - id: agi_newino
    type: u4
    -label: 'agi_newino'
    doc: 'Newest inode chunk.'
  - id: agi_dirino
    type: u4
    -label: 'agi_dirino'
    doc: 'Not used.'
  - id: agi_unlinked
    type: u4
    repeat: expr
    repeat-expr: 64
    -unit: hex
    -label: 'agi_unlinked'
    doc: 'Lists of unlinked inodes; all ones is empty.'
  - id: agi_uuid
    size: 16
    -unit: uuid
    -label: 'agi_uuid'
    doc: 'Identity of the volume.'
  - id: agi_crc
    type: u4le
    -unit: hex
    -label: 'agi_crc'
    doc: 'CRC-32C of the sector with this field zero; little endian.'
  - id: agi_pad32
    type: u4
    -label: 'agi_pad32'
    doc: 'Padding.'
  - id: agi_lsn
    type: u8
    -unit: hex
    -label: 'agi_lsn'
    doc: 'Last log sequence.'
  - id: agi_free_root
    type: u4
    -label: 'agi_free_root'
    doc: 'Root of the tree of free inodes.'
  - id: agi_free_level
    type: u4
    -label: 'agi_free_level'
    doc: 'Levels of the tree of free inodes.'
