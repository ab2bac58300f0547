meta:
  id: hfsplus_btree_header
  title: 'HFS+ B-tree header node'
  endian: be
  -kinds: [btree-header]
doc: 'The first node of a B-tree file: node descriptor, header record, start of the map.'
doc-ref: 'Apple TN1150, B-Trees, by way of hfs_format.h (xnu)'
seq:
  - id: f_link
    type: u4
    -label: 'fLink'
    doc: 'Next node of this kind.'
  - id: b_link
    type: u4
    -label: 'bLink'
    doc: 'Previous node of this kind.'
  - id: kind
    type: s1
    enum: node_kind
    -label: 'kind'
    doc: 'Kind of the node.'
  - id: height
    type: u1
    -label: 'height'
    doc: 'Level: 1 is a leaf, 0 header and map.'
  - id: num_records
    type: u2
    -label: 'numRecords'
    doc: 'Records in the node.'
  - id: reserved
    type: u2
    -label: 'reserved'
    doc: 'Zero.'
  - id: tree_depth
    type: u2
    -label: 'treeDepth'
    doc: 'Levels of the tree.'
  - id: root_node
    type: u4
    -label: 'rootNode'
    doc: 'Node of the root.'
  - id: leaf_records
    type: u4
    -label: 'leafRecords'
    doc: 'Records in all leaves.'
  - id: first_leaf_node
    type: u4
    -label: 'firstLeafNode'
    doc: 'First leaf.'
  - id: last_leaf_node
    type: u4
    -label: 'lastLeafNode'
    doc: 'Last leaf.'
  - id: node_size
    type: u2
    -unit: bytes
    -label: 'nodeSize'
    doc: 'Bytes of a node: a power of two from 512 to 32768.'
  - id: max_key_length
    type: u2
    -label: 'maxKeyLength'
    doc: 'Longest key.'
  - id: total_nodes
    type: u4
    -label: 'totalNodes'
    doc: 'Nodes of the file.'
  - id: free_nodes
    type: u4
    -label: 'freeNodes'
    doc: 'Free nodes.'
  - id: reserved1
    type: u2
    -label: 'reserved1'
    doc: 'Reserved.'
  - id: clump_size
    type: u4
    -unit: bytes
    -label: 'clumpSize'
    doc: 'Clump size.'
  - id: btree_type
    type: u1
    -label: 'btreeType'
    doc: 'Type of the tree; 0 for the file system''s own.'
  - id: key_compare_type
    type: u1
    enum: compare
    -label: 'keyCompareType'
    doc: 'How keys compare in an HFSX catalog.'
  - id: attributes
    type: u4
    -unit: flags
    -flags: {0x1: "bad close", 0x2: "big keys", 0x4: "variable index keys"}
    -label: 'attributes'
    doc: 'Attributes.'
  - id: reserved3
    type: u4
    repeat: expr
    repeat-expr: 16
    -unit: hex
    -label: 'reserved3'
    doc: 'Reserved.'
enums:
  node_kind:
    -1:
      id: leaf
      -label: 'Leaf'
    0:
      id: index
      -label: 'Index'
    1:
      id: header
      -label: 'Header'
    2:
      id: map
      -label: 'Map'
  compare:
    0:
      id: not_stated
      -label: 'Not stated'
    0xBC:
      id: binary
      -label: 'Binary'
    0xCF:
      id: case_folding
      -label: 'Case folding'
