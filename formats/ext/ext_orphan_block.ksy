meta:
  id: ext_orphan_block
  title: 'ext block of the orphan file'
  endian: le
  -kinds: [orphan-block]
doc: 'Inodes that were deleted or cut while still open.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, orphan file'
seq:
  - id: entries
    type: u4
    repeat: expr
    repeat-expr: '(_io.size - 8) / 4'
    -link: record
    -format: ext_inode
    -label: 'Inode'
    doc: 'An orphan; 0 is an entry not in use.'
  - id: ob_magic
    type: u4
    valid: 0x0B10CA04
    -unit: hex
    -label: 'ob_magic'
    doc: '0B10CA04.'
  - id: ob_checksum
    type: u4
    -unit: hex
    -label: 'ob_checksum'
    doc: 'CRC-32C of block number and entries, from the inode''s seed.'
