meta:
  id: apfs_btree_node
  title: 'APFS B-tree node'
  endian: le
  -kinds: [object]
doc: 'A node: a table of places, keys behind it, values counted from the end.'
doc-ref: 'Apple File System Reference, B-Trees, by way of apfs_raw.h (linux-apfs)'
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
  - id: btn_flags
    type: u2
    -unit: flags
    -flags: {0x1: "root", 0x2: "leaf", 0x4: "keys and values of one length", 0x8: "hashed", 0x10: "no header"}
    -label: 'btn_flags'
    doc: 'Kind of node.'
  - id: btn_level
    type: u2
    -label: 'btn_level'
    doc: 'Levels below it.'
  - id: btn_nkeys
    type: u4
    -label: 'btn_nkeys'
    doc: 'Keys.'
  - id: btn_table_space
    type: nloc
    -label: 'btn_table_space'
    doc: 'Place of the table, from byte 56.'
  - id: btn_free_space
    type: nloc
    -label: 'btn_free_space'
    doc: 'Room between keys and values.'
  - id: btn_key_free_list
    type: nloc
    -label: 'btn_key_free_list'
    doc: 'First gap among the keys.'
  - id: btn_val_free_list
    type: nloc
    -label: 'btn_val_free_list'
    doc: 'First gap among the values.'
  - id: toc_fixed
    type: kvoff
    if: btn_flags & 4 != 0
    repeat: expr
    repeat-expr: btn_nkeys
    -label: 'table'
    doc: 'Places of the records.'
  - id: toc
    type: kvloc
    if: btn_flags & 4 == 0
    repeat: expr
    repeat-expr: btn_nkeys
    -label: 'table'
    doc: 'Places of the records.'
instances:
  info:
    pos: '_io.size - 40'
    type: btree_info
    if: btn_flags & 1 != 0
    -label: 'btree_info'
    doc: 'What is said of the whole tree, in its root alone.'
types:
  nloc:
    doc: 'A place in the node.'
    seq:
      - id: offset
        type: u2
        -label: 'off'
        doc: 'Bytes from the start of its area, or FFFF for none.'
      - id: length
        type: u2
        -unit: bytes
        -label: 'len'
        doc: 'Length.'
  kvloc:
    doc: 'Places of a key and its value.'
    seq:
      - id: k
        type: nloc
        -label: 'k'
        doc: 'Key, from the start of the keys.'
      - id: v
        type: nloc
        -label: 'v'
        doc: 'Value, counted backwards from the end of the values.'
  kvoff:
    doc: 'Places of a key and its value where all have one length.'
    seq:
      - id: k
        type: u2
        -label: 'k'
        doc: 'Key, from the start of the keys.'
      - id: v
        type: u2
        -label: 'v'
        doc: 'Value, counted backwards from the end of the values.'
  btree_info:
    doc: 'What is said of the whole tree.'
    seq:
      - id: bt_flags
        type: u4
        -unit: flags
        -flags: {0x1: "64-bit keys", 0x2: "sequential insert", 0x4: "keys without values", 0x8: "ephemeral", 0x10: "physical", 0x20: "not persistent", 0x40: "not aligned"}
        -label: 'bt_flags'
        doc: 'Flags.'
      - id: bt_node_size
        type: u4
        -unit: bytes
        -label: 'bt_node_size'
        doc: 'Bytes of a node.'
      - id: bt_key_size
        type: u4
        -unit: bytes
        -label: 'bt_key_size'
        doc: 'Bytes of a key; 0 where they vary.'
      - id: bt_val_size
        type: u4
        -unit: bytes
        -label: 'bt_val_size'
        doc: 'Bytes of a value; 0 where they vary.'
      - id: bt_longest_key
        type: u4
        -unit: bytes
        -label: 'bt_longest_key'
        doc: 'Longest key ever.'
      - id: bt_longest_val
        type: u4
        -unit: bytes
        -label: 'bt_longest_val'
        doc: 'Longest value ever.'
      - id: bt_key_count
        type: u8
        -label: 'bt_key_count'
        doc: 'Keys of the tree.'
      - id: bt_node_count
        type: u8
        -label: 'bt_node_count'
        doc: 'Nodes of the tree.'
