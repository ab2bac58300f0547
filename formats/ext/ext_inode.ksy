meta:
  id: ext_inode
  title: 'ext inode'
  endian: le
  -kinds: [inode]
doc: 'Type, owner, times, size and place of one file.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, index nodes'
params:
  - id: inode_size
    type: u4
    doc: 'Bytes of an inode.'
seq:
  - id: i_mode
    type: u2
    -unit: hex
    -label: 'i_mode'
    doc: 'Type in the top four bits, permissions below.'
  - id: i_uid
    type: u2
    -label: 'i_uid'
    doc: 'Owner, low 16 bits.'
  - id: i_size_lo
    type: u4
    -label: 'i_size_lo'
    doc: 'Size in bytes, low 32 bits.'
  - id: i_atime
    type: u4
    -unit: unix
    -label: 'i_atime'
    doc: 'Last access.'
  - id: i_ctime
    type: u4
    -unit: unix
    -label: 'i_ctime'
    doc: 'Last change of the inode.'
  - id: i_mtime
    type: u4
    -unit: unix
    -label: 'i_mtime'
    doc: 'Last change of the content.'
  - id: i_dtime
    type: u4
    -unit: unix
    -label: 'i_dtime'
    doc: 'Time of deletion; on an orphan the next orphan.'
  - id: i_gid
    type: u2
    -label: 'i_gid'
    doc: 'Group, low 16 bits.'
  - id: i_links_count
    type: u2
    -label: 'i_links_count'
    doc: 'Number of names; 0 is free or deleted.'
  - id: i_blocks_lo
    type: u4
    -label: 'i_blocks_lo'
    doc: 'Blocks taken, in units of 512 bytes, low 32 bits.'
  - id: i_flags
    type: u4
    -unit: flags
    -flags: {0x10: "immutable", 0x20: "append only", 0x800: "encrypted", 0x1000: "hash tree directory", 0x4000: "journalled data", 0x40000: "huge file", 0x80000: "extents", 0x100000: "verity", 0x200000: "value of an extended attribute", 0x10000000: "inline data", 0x20000000: "inherits project", 0x40000000: "casefold"}
    -label: 'i_flags'
    doc: 'Flags of the file.'
  - id: i_version_lo
    type: u4
    -label: 'i_version_lo'
    doc: 'Version, low 32 bits.'
  - id: i_block_extents
    type: extent_root
    if: '(i_flags & 0x80000) != 0'
    size: 60
    -label: 'i_block'
    doc: 'Root of the extent tree.'
  - id: i_block_map
    type: u4
    repeat: expr
    repeat-expr: 15
    if: '(i_flags & 0x80000) == 0'
    -label: 'i_block'
    doc: '12 blocks, then the blocks of single, double and triple indirect maps; or inline data, or the target of a short link.'
  - id: i_generation
    type: u4
    -unit: hex
    -label: 'i_generation'
    doc: 'Generation; part of the checksums.'
  - id: i_file_acl_lo
    type: u4
    -link: cluster
    -label: 'i_file_acl_lo'
    doc: 'Block of extended attributes, low 32 bits.'
  - id: i_size_hi
    type: u4
    -label: 'i_size_hi'
    doc: 'Size in bytes, high 32 bits.'
  - id: i_obso_faddr
    type: u4
    -label: 'i_obso_faddr'
    doc: 'Obsolete.'
  - id: i_blocks_hi
    type: u2
    -label: 'i_blocks_hi'
    doc: 'Blocks taken, high 16 bits.'
  - id: i_file_acl_hi
    type: u2
    -label: 'i_file_acl_hi'
    doc: 'Block of extended attributes, high 16 bits.'
  - id: i_uid_high
    type: u2
    -label: 'i_uid_high'
    doc: 'Owner, high 16 bits.'
  - id: i_gid_high
    type: u2
    -label: 'i_gid_high'
    doc: 'Group, high 16 bits.'
  - id: i_checksum_lo
    type: u2
    -unit: hex
    -label: 'i_checksum_lo'
    doc: 'Checksum of the inode, low 16 bits.'
  - id: i_reserved
    type: u2
    -label: 'i_reserved'
    doc: 'Reserved.'
  - id: extra
    type: inode_extra
    if: 'inode_size > 128'
    size: inode_size - 128
    doc: 'Fields after the first 128 bytes.'
types:
  extent_root:
    doc: 'Header and up to four entries.'
    seq:
      - id: eh_magic
        type: u2
        -unit: hex
        valid: 0xF30A
        -label: 'eh_magic'
        doc: 'F30A in every node.'
      - id: eh_entries
        type: u2
        valid: {max: 4}
        -label: 'eh_entries'
        doc: 'Entries in use.'
      - id: eh_max
        type: u2
        -label: 'eh_max'
        doc: 'Entries that have room: 4.'
      - id: eh_depth
        type: u2
        -label: 'eh_depth'
        doc: 'Levels below the root; 0 is a leaf.'
      - id: eh_generation
        type: u4
        -label: 'eh_generation'
        doc: 'Generation; not used.'
      - id: leaves
        type: leaf_entry
        repeat: expr
        repeat-expr: 4
        if: 'eh_depth == 0'
        -label: 'ext4_extent'
        doc: 'Runs of blocks; only as many as are in use count.'
      - id: indexes
        type: index_entry
        repeat: expr
        repeat-expr: 4
        if: 'eh_depth != 0'
        -label: 'ext4_extent_idx'
        doc: 'Nodes of the next level; only as many as are in use count.'
  leaf_entry:
    doc: 'A run of blocks of the file.'
    seq:
      - id: ee_block
        type: u4
        -label: 'ee_block'
        doc: 'First block of the file.'
      - id: ee_len
        type: u2
        -label: 'ee_len'
        doc: 'Blocks; above 32768 the run is not written yet and 32768 has to be taken off.'
      - id: ee_start_hi
        type: u2
        -label: 'ee_start_hi'
        doc: 'First block on the volume, high 16 bits.'
      - id: ee_start_lo
        type: u4
        -link: cluster
        -label: 'ee_start_lo'
        doc: 'First block on the volume, low 32 bits.'
  index_entry:
    doc: 'A node of the next level.'
    seq:
      - id: ei_block
        type: u4
        -label: 'ei_block'
        doc: 'First block of the file below that node.'
      - id: ei_leaf_lo
        type: u4
        -link: cluster
        -format: ext_extent_node
        -label: 'ei_leaf_lo'
        doc: 'Block of the node, low 32 bits.'
      - id: ei_leaf_hi
        type: u2
        -label: 'ei_leaf_hi'
        doc: 'Block of the node, high 16 bits.'
      - id: ei_unused
        type: u2
        -label: 'ei_unused'
        doc: 'Not used.'
  inode_extra:
    doc: 'Fields that exist in inodes of more than 128 bytes.'
    seq:
      - id: i_extra_isize
        type: u2
        -label: 'i_extra_isize'
        doc: 'Bytes used after the first 128, this field included.'
      - id: i_checksum_hi
        type: u2
        -unit: hex
        if: 'i_extra_isize >= 4'
        -label: 'i_checksum_hi'
        doc: 'Checksum of the inode, high 16 bits.'
      - id: i_ctime_extra
        type: u4
        -unit: hex
        if: 'i_extra_isize >= 8'
        -label: 'i_ctime_extra'
        doc: 'Nanoseconds and high bits of i_ctime.'
      - id: i_mtime_extra
        type: u4
        -unit: hex
        if: 'i_extra_isize >= 12'
        -label: 'i_mtime_extra'
        doc: 'Nanoseconds and high bits of i_mtime.'
      - id: i_atime_extra
        type: u4
        -unit: hex
        if: 'i_extra_isize >= 16'
        -label: 'i_atime_extra'
        doc: 'Nanoseconds and high bits of i_atime.'
      - id: i_crtime
        type: u4
        -unit: unix
        if: 'i_extra_isize >= 20'
        -label: 'i_crtime'
        doc: 'Time of creation.'
      - id: i_crtime_extra
        type: u4
        -unit: hex
        if: 'i_extra_isize >= 24'
        -label: 'i_crtime_extra'
        doc: 'Nanoseconds and high bits of i_crtime.'
      - id: i_version_hi
        type: u4
        if: 'i_extra_isize >= 28'
        -label: 'i_version_hi'
        doc: 'Version, high 32 bits.'
      - id: i_projid
        type: u4
        if: 'i_extra_isize >= 32'
        -label: 'i_projid'
        doc: 'Project.'
      - id: attributes
        size-eos: true
        doc: 'Extended attributes inside the inode.'
