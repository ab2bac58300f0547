meta:
  id: apfs_object_map
  title: 'APFS object map'
  endian: le
  -kinds: [object]
doc: 'Says where the tree lies that leads from object ids to blocks.'
doc-ref: 'Apple File System Reference, Object Maps, by way of apfs_raw.h (linux-apfs)'
seq:
  - id: o_cksum
    type: u8
    -unit: hex
    -label: 'o_cksum'
    doc: 'Fletcher-64 of the rest of the object.'
  - id: o_oid
    type: u8
    -label: 'o_oid'
    doc: 'Object id; of a physical object its block.'
  - id: o_xid
    type: u8
    -label: 'o_xid'
    doc: 'Transaction that wrote it.'
  - id: o_type
    type: u4
    -unit: hex
    -label: 'o_type'
    doc: 'Type in the low 16 bits, storage above.'
  - id: o_subtype
    type: u4
    -unit: hex
    -label: 'o_subtype'
    doc: 'Subtype.'
  - id: om_flags
    type: u4
    -unit: flags
    -flags: {0x1: "manually managed", 0x2: "encrypting", 0x4: "decrypting", 0x8: "keyrolling", 0x10: "crypto generation"}
    -label: 'om_flags'
    doc: 'Flags.'
  - id: om_snap_count
    type: u4
    -label: 'om_snap_count'
    doc: 'Snapshots.'
  - id: om_tree_type
    type: u4
    -unit: hex
    -label: 'om_tree_type'
    doc: 'Type of the tree.'
  - id: om_snapshot_tree_type
    type: u4
    -unit: hex
    -label: 'om_snapshot_tree_type'
    doc: 'Type of the tree of snapshots.'
  - id: om_tree_oid
    type: u8
    -link: cluster
    -format: apfs_btree_node
    -label: 'om_tree_oid'
    doc: 'Block of the tree.'
  - id: om_snapshot_tree_oid
    type: u8
    -link: cluster
    -label: 'om_snapshot_tree_oid'
    doc: 'Block of the tree of snapshots; 0 is none.'
  - id: om_most_recent_snap
    type: u8
    -label: 'om_most_recent_snap'
    doc: 'Transaction of the newest snapshot.'
  - id: om_pending_revert_min
    type: u8
    -label: 'om_pending_revert_min'
    doc: 'First transaction to be undone.'
  - id: om_pending_revert_max
    type: u8
    -label: 'om_pending_revert_max'
    doc: 'Last transaction to be undone.'
