meta:
  id: ext_group_descriptor
  title: 'ext group descriptor'
  endian: le
  -kinds: [group-descriptor]
doc: 'Where the bitmaps and the inode table of a block group lie, and how much of it is free.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, block group descriptors'
params:
  - id: desc_size
    type: u4
    doc: 'Bytes of a descriptor: 32, or s_desc_size with 64bit.'
seq:
  - id: bg_block_bitmap_lo
    type: u4
    -link: cluster
    -label: 'bg_block_bitmap_lo'
    doc: 'Block of the block bitmap, low 32 bits.'
  - id: bg_inode_bitmap_lo
    type: u4
    -link: cluster
    -label: 'bg_inode_bitmap_lo'
    doc: 'Block of the inode bitmap, low 32 bits.'
  - id: bg_inode_table_lo
    type: u4
    -link: cluster
    -label: 'bg_inode_table_lo'
    doc: 'First block of the inode table, low 32 bits.'
  - id: bg_free_blocks_count_lo
    type: u2
    -label: 'bg_free_blocks_count_lo'
    doc: 'Free blocks, low 16 bits.'
  - id: bg_free_inodes_count_lo
    type: u2
    -label: 'bg_free_inodes_count_lo'
    doc: 'Free inodes, low 16 bits.'
  - id: bg_used_dirs_count_lo
    type: u2
    -label: 'bg_used_dirs_count_lo'
    doc: 'Directories, low 16 bits.'
  - id: bg_flags
    type: u2
    -unit: flags
    -flags: {0x1: "inode bitmap and table not initialised", 0x2: "block bitmap not initialised", 0x4: "inode table zeroed"}
    -label: 'bg_flags'
    doc: 'Flags of the group.'
  - id: bg_exclude_bitmap_lo
    type: u4
    -label: 'bg_exclude_bitmap_lo'
    doc: 'Snapshot exclusion bitmap, low 32 bits; not used.'
  - id: bg_block_bitmap_csum_lo
    type: u2
    -unit: hex
    -label: 'bg_block_bitmap_csum_lo'
    doc: 'Checksum of the block bitmap, low 16 bits.'
  - id: bg_inode_bitmap_csum_lo
    type: u2
    -unit: hex
    -label: 'bg_inode_bitmap_csum_lo'
    doc: 'Checksum of the inode bitmap, low 16 bits.'
  - id: bg_itable_unused_lo
    type: u2
    -label: 'bg_itable_unused_lo'
    doc: 'Inodes at the end of the table that were never used, low 16 bits.'
  - id: bg_checksum
    type: u2
    -unit: hex
    -label: 'bg_checksum'
    doc: 'Checksum of this descriptor.'
  - id: bg_block_bitmap_hi
    type: u4
    if: 'desc_size >= 64'
    -label: 'bg_block_bitmap_hi'
    doc: 'Block of the block bitmap, high 32 bits.'
  - id: bg_inode_bitmap_hi
    type: u4
    if: 'desc_size >= 64'
    -label: 'bg_inode_bitmap_hi'
    doc: 'Block of the inode bitmap, high 32 bits.'
  - id: bg_inode_table_hi
    type: u4
    if: 'desc_size >= 64'
    -label: 'bg_inode_table_hi'
    doc: 'First block of the inode table, high 32 bits.'
  - id: bg_free_blocks_count_hi
    type: u2
    if: 'desc_size >= 64'
    -label: 'bg_free_blocks_count_hi'
    doc: 'Free blocks, high 16 bits.'
  - id: bg_free_inodes_count_hi
    type: u2
    if: 'desc_size >= 64'
    -label: 'bg_free_inodes_count_hi'
    doc: 'Free inodes, high 16 bits.'
  - id: bg_used_dirs_count_hi
    type: u2
    if: 'desc_size >= 64'
    -label: 'bg_used_dirs_count_hi'
    doc: 'Directories, high 16 bits.'
  - id: bg_itable_unused_hi
    type: u2
    if: 'desc_size >= 64'
    -label: 'bg_itable_unused_hi'
    doc: 'Unused inodes, high 16 bits.'
  - id: bg_exclude_bitmap_hi
    type: u4
    if: 'desc_size >= 64'
    -label: 'bg_exclude_bitmap_hi'
    doc: 'Snapshot exclusion bitmap, high 32 bits.'
  - id: bg_block_bitmap_csum_hi
    type: u2
    -unit: hex
    if: 'desc_size >= 64'
    -label: 'bg_block_bitmap_csum_hi'
    doc: 'Checksum of the block bitmap, high 16 bits.'
  - id: bg_inode_bitmap_csum_hi
    type: u2
    -unit: hex
    if: 'desc_size >= 64'
    -label: 'bg_inode_bitmap_csum_hi'
    doc: 'Checksum of the inode bitmap, high 16 bits.'
  - id: bg_reserved
    type: u4
    if: 'desc_size >= 64'
    -label: 'bg_reserved'
    doc: 'Reserved.'
