meta:
  id: apfs_volume_superblock
  title: 'APFS volume superblock'
  endian: le
  -kinds: [superblock]
doc: 'One volume of a container.'
doc-ref: 'Apple File System Reference, Volumes, by way of apfsprogs (linux-apfs)'
seq:
  - id: o_cksum
    type: u8
    -unit: hex
    -label: 'o_cksum'
    doc: 'Fletcher-64 of the rest of the block.'
  - id: o_oid
    type: u8
    -label: 'o_oid'
    doc: 'Object id of the volume.'
  - id: o_xid
    type: u8
    -label: 'o_xid'
    doc: 'Transaction that wrote it.'
  - id: o_type
    type: u4
    -unit: hex
    -label: 'o_type'
    doc: 'Type: 0D.'
  - id: o_subtype
    type: u4
    -unit: hex
    -label: 'o_subtype'
    doc: 'Subtype.'
  - id: apfs_magic
    type: strz
    size: 4
    encoding: ASCII
    -label: 'apfs_magic'
    doc: '"APSB".'
  - id: apfs_fs_index
    type: u4
    -label: 'apfs_fs_index'
    doc: 'Index of the volume.'
  - id: apfs_features
    type: u8
    -unit: hex
    -label: 'apfs_features'
    doc: 'Optional features.'
  - id: apfs_readonly_compatible_features
    type: u8
    -unit: hex
    -label: 'apfs_readonly_compatible_features'
    doc: 'Read-only features.'
  - id: apfs_incompatible_features
    type: u8
    -unit: flags
    -flags: {0x1: "case insensitive", 0x8: "normalisation insensitive", 0x20: "sealed"}
    -label: 'apfs_incompatible_features'
    doc: 'Incompatible features.'
  - id: apfs_unmount_time
    type: u8
    -label: 'apfs_unmount_time'
    doc: 'Last unmount, nanoseconds since 1970.'
  - id: apfs_fs_reserve_block_count
    type: u8
    -label: 'apfs_fs_reserve_block_count'
    doc: 'Blocks reserved for it.'
  - id: apfs_fs_quota_block_count
    type: u8
    -label: 'apfs_fs_quota_block_count'
    doc: 'Most blocks it may use.'
  - id: apfs_fs_alloc_count
    type: u8
    -label: 'apfs_fs_alloc_count'
    doc: 'Blocks it uses.'
  - id: meta_crypto
    size: 20
    -label: 'apfs_meta_crypto'
    doc: 'Encryption of metadata.'
  - id: apfs_root_tree_type
    type: u4
    -unit: hex
    -label: 'apfs_root_tree_type'
    doc: 'Type of the tree of files.'
  - id: apfs_extentref_tree_type
    type: u4
    -unit: hex
    -label: 'apfs_extentref_tree_type'
    doc: 'Type of the tree of extents.'
  - id: apfs_snap_meta_tree_type
    type: u4
    -unit: hex
    -label: 'apfs_snap_meta_tree_type'
    doc: 'Type of the tree of snapshots.'
  - id: apfs_omap_oid
    type: u8
    -link: cluster
    -format: apfs_object_header
    -label: 'apfs_omap_oid'
    doc: 'Block of its object map.'
  - id: apfs_root_tree_oid
    type: u8
    -label: 'apfs_root_tree_oid'
    doc: 'Tree of files (virtual id).'
  - id: apfs_extentref_tree_oid
    type: u8
    -label: 'apfs_extentref_tree_oid'
    doc: 'Tree of extents.'
  - id: apfs_snap_meta_tree_oid
    type: u8
    -label: 'apfs_snap_meta_tree_oid'
    doc: 'Tree of snapshots.'
  - id: apfs_revert_to
    type: u8
    repeat: expr
    repeat-expr: 2
    -label: 'apfs_revert_to_xid'
    doc: 'Snapshot to return to.'
  - id: apfs_next_obj_id
    type: u8
    -label: 'apfs_next_obj_id'
    doc: 'Next file id.'
  - id: apfs_num_files
    type: u8
    -label: 'apfs_num_files'
    doc: 'Files.'
  - id: apfs_num_directories
    type: u8
    -label: 'apfs_num_directories'
    doc: 'Folders.'
  - id: apfs_num_symlinks
    type: u8
    -label: 'apfs_num_symlinks'
    doc: 'Symbolic links.'
  - id: apfs_num_other_fsobjects
    type: u8
    -label: 'apfs_num_other_fsobjects'
    doc: 'Other objects.'
  - id: apfs_num_snapshots
    type: u8
    -label: 'apfs_num_snapshots'
    doc: 'Snapshots.'
  - id: apfs_total_blocks_alloced
    type: u8
    -label: 'apfs_total_blocks_alloced'
    doc: 'Blocks taken in its life.'
  - id: apfs_total_blocks_freed
    type: u8
    -label: 'apfs_total_blocks_freed'
    doc: 'Blocks given back in its life.'
  - id: apfs_vol_uuid
    size: 16
    -unit: uuid
    -label: 'apfs_vol_uuid'
    doc: 'Identity of the volume.'
  - id: apfs_last_mod_time
    type: u8
    -label: 'apfs_last_mod_time'
    doc: 'Last change, nanoseconds since 1970.'
  - id: apfs_fs_flags
    type: u8
    -unit: flags
    -flags: {0x1: "not encrypted", 0x8: "one key"}
    -label: 'apfs_fs_flags'
    doc: 'Flags.'
  - id: apfs_formatted_by
    size: 48
    -label: 'apfs_formatted_by'
    doc: 'Who made it, when, in which transaction.'
  - id: apfs_modified_by
    size: 384
    -label: 'apfs_modified_by'
    doc: 'The last eight who changed it.'
  - id: apfs_volname
    type: strz
    size: 256
    encoding: UTF-8
    -label: 'apfs_volname'
    doc: 'Name of the volume.'
  - id: apfs_next_doc_id
    type: u4
    -label: 'apfs_next_doc_id'
    doc: 'Next document id.'
  - id: apfs_role
    type: u2
    enum: role
    -label: 'apfs_role'
    doc: 'What it is for.'
enums:
  role:
    0:
      id: no_role
      -label: 'No role'
    1:
      id: system
      -label: 'System'
    2:
      id: user
      -label: 'User'
    4:
      id: recovery
      -label: 'Recovery'
    8:
      id: vm
      -label: 'VM'
    0x10:
      id: preboot
      -label: 'Preboot'
    0x20:
      id: installer
      -label: 'Installer'
    0x40:
      id: data
      -label: 'Data'
    0x80:
      id: baseband
      -label: 'Baseband'
    0xC0:
      id: update
      -label: 'Update'
    0x100:
      id: xart
      -label: 'xART'
    0x140:
      id: hardware
      -label: 'Hardware'
    0x180:
      id: backup
      -label: 'Backup'
    0x240:
      id: enterprise
      -label: 'Enterprise'
    0x2C0:
      id: prelogin
      -label: 'Prelogin'
