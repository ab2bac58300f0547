meta:
  id: apfs_container_superblock
  title: 'APFS container superblock'
  endian: le
  -kinds: [superblock]
doc: 'The container''s superblock in block 0 and in the checkpoint area.'
doc-ref: 'Apple File System Reference, Container, by way of apfsprogs (linux-apfs)'
seq:
  - id: o_cksum
    type: u8
    -unit: hex
    -label: 'o_cksum'
    doc: 'Fletcher-64 of the rest of the block.'
  - id: o_oid
    type: u8
    -label: 'o_oid'
    doc: 'Object id, 1.'
  - id: o_xid
    type: u8
    -label: 'o_xid'
    doc: 'Transaction that wrote it.'
  - id: o_type
    type: u4
    -unit: hex
    -label: 'o_type'
    doc: 'Type: 80000001.'
  - id: o_subtype
    type: u4
    -unit: hex
    -label: 'o_subtype'
    doc: 'Subtype, 0.'
  - id: nx_magic
    type: strz
    size: 4
    encoding: ASCII
    -label: 'nx_magic'
    doc: '"NXSB".'
  - id: nx_block_size
    type: u4
    -unit: bytes
    -label: 'nx_block_size'
    doc: 'Bytes per block: a power of two from 4096 to 65536.'
  - id: nx_block_count
    type: u8
    -label: 'nx_block_count'
    doc: 'Blocks of the container.'
  - id: nx_features
    type: u8
    -unit: hex
    -label: 'nx_features'
    doc: 'Optional features.'
  - id: nx_readonly_compatible_features
    type: u8
    -unit: hex
    -label: 'nx_readonly_compatible_features'
    doc: 'Read-only features.'
  - id: nx_incompatible_features
    type: u8
    -unit: flags
    -flags: {0x1: "version 1", 0x2: "version 2", 0x100: "Fusion"}
    -label: 'nx_incompatible_features'
    doc: 'Incompatible features.'
  - id: nx_uuid
    size: 16
    -unit: uuid
    -label: 'nx_uuid'
    doc: 'Identity of the container.'
  - id: nx_next_oid
    type: u8
    -label: 'nx_next_oid'
    doc: 'Next object id.'
  - id: nx_next_xid
    type: u8
    -label: 'nx_next_xid'
    doc: 'Next transaction.'
  - id: nx_xp_desc_blocks
    type: u4
    -label: 'nx_xp_desc_blocks'
    doc: 'Blocks of the checkpoint descriptor area.'
  - id: nx_xp_data_blocks
    type: u4
    -label: 'nx_xp_data_blocks'
    doc: 'Blocks of the checkpoint data area.'
  - id: nx_xp_desc_base
    type: u8
    -link: cluster
    -label: 'nx_xp_desc_base'
    doc: 'First block of the descriptor area.'
  - id: nx_xp_data_base
    type: u8
    -link: cluster
    -label: 'nx_xp_data_base'
    doc: 'First block of the data area.'
  - id: nx_xp_desc_next
    type: u4
    -label: 'nx_xp_desc_next'
    doc: 'Next free index in the descriptor area.'
  - id: nx_xp_data_next
    type: u4
    -label: 'nx_xp_data_next'
    doc: 'Next free index in the data area.'
  - id: nx_xp_desc_index
    type: u4
    -label: 'nx_xp_desc_index'
    doc: 'Index where the current checkpoint starts.'
  - id: nx_xp_desc_len
    type: u4
    -label: 'nx_xp_desc_len'
    doc: 'Blocks of the current checkpoint.'
  - id: nx_xp_data_index
    type: u4
    -label: 'nx_xp_data_index'
    doc: 'Index of its data.'
  - id: nx_xp_data_len
    type: u4
    -label: 'nx_xp_data_len'
    doc: 'Blocks of its data.'
  - id: nx_spaceman_oid
    type: u8
    -label: 'nx_spaceman_oid'
    doc: 'Space manager (ephemeral id).'
  - id: nx_omap_oid
    type: u8
    -link: cluster
    -format: apfs_object_header
    -label: 'nx_omap_oid'
    doc: 'Block of the container''s object map.'
  - id: nx_reaper_oid
    type: u8
    -label: 'nx_reaper_oid'
    doc: 'Reaper (ephemeral id).'
  - id: nx_test_type
    type: u4
    -label: 'nx_test_type'
    doc: 'For tests.'
  - id: nx_max_file_systems
    type: u4
    -label: 'nx_max_file_systems'
    doc: 'Most volumes, at most 100.'
  - id: nx_fs_oid
    type: u8
    repeat: expr
    repeat-expr: 100
    -label: 'nx_fs_oid'
    doc: 'Ids of the volumes; 0 is none.'
  - id: nx_counters
    type: u8
    repeat: expr
    repeat-expr: 32
    -label: 'nx_counters'
    doc: 'Counters.'
  - id: nx_blocked_out_start
    type: u8
    -label: 'nx_blocked_out_prange'
    doc: 'First block of a range not to be used.'
  - id: nx_blocked_out_count
    type: u8
    -label: 'nx_blocked_out_prange'
    doc: 'Blocks of that range.'
  - id: nx_evict_mapping_tree_oid
    type: u8
    -label: 'nx_evict_mapping_tree_oid'
    doc: 'Tree used while shrinking.'
  - id: nx_flags
    type: u8
    -unit: hex
    -label: 'nx_flags'
    doc: 'Flags.'
  - id: nx_efi_jumpstart
    type: u8
    -link: cluster
    -label: 'nx_efi_jumpstart'
    doc: 'Block of the EFI driver''s place.'
  - id: nx_fusion_uuid
    size: 16
    -unit: uuid
    -label: 'nx_fusion_uuid'
    doc: 'Identity of the Fusion set.'
  - id: nx_keylocker_start
    type: u8
    -link: cluster
    -label: 'nx_keylocker'
    doc: 'First block of the key locker.'
  - id: nx_keylocker_count
    type: u8
    -label: 'nx_keylocker'
    doc: 'Blocks of the key locker.'
