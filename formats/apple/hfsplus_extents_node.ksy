meta:
  id: hfsplus_extents_node
  title: 'HFS+ node of the extents tree'
  endian: be
  -kinds: [btree-node]
doc: 'A leaf or index node: descriptor, records, and their offsets at the end of the node, counted backwards.'
doc-ref: 'Apple TN1150, B-Trees and Extents Overflow File, by way of hfs_format.h (xnu)'
seq:
  - id: f_link
    type: u4
    -label: 'fLink'
    doc: 'Next node of this level; 0 is none.'
  - id: b_link
    type: u4
    -label: 'bLink'
    doc: 'Previous node of this level; 0 is none.'
  - id: kind
    type: s1
    enum: node_kind
    -label: 'kind'
    doc: 'Kind of the node.'
  - id: height
    type: u1
    -label: 'height'
    doc: 'Level: 1 is a leaf.'
  - id: num_records
    type: u2
    -label: 'numRecords'
    doc: 'Records in the node.'
  - id: reserved
    type: u2
    -label: 'reserved'
    doc: 'Zero.'
  - id: records
    type: record
    size: 'offsets[num_records - 1 - _index] - offsets[num_records - _index]'
    repeat: expr
    repeat-expr: num_records
    -label: 'records'
    doc: 'The records, one after the other.'
instances:
  offsets:
    pos: '_io.size - 2 * (num_records + 1)'
    type: u2
    repeat: expr
    repeat-expr: num_records + 1
    -label: 'offsets'
    doc: 'Byte of the free space, then of each record, the last one first.'
types:
  record:
    doc: 'A key and what belongs to it.'
    seq:
      - id: key_length
        type: u2
        -unit: bytes
        -label: 'keyLength'
        doc: 'Bytes of the key.'
      - id: key
        type: key
        size: key_length
        -label: 'key'
        doc: 'The key.'
      - id: pad
        size: 'key_length % 2'
        doc: 'Data start at an even byte.'
      - id: child
        type: u4
        if: '_root.kind == node_kind::index'
        -label: 'node'
        doc: 'Node below.'
      - id: data
        type: extents_data
        if: '_root.kind == node_kind::leaf'
        -label: 'data'
        doc: 'What the key stands for.'
  key:
    doc: 'The key.'
    seq:
      - id: fork_type
        type: u1
        enum: fork_type
        -label: 'forkType'
        doc: 'Which fork.'
      - id: pad
        type: u1
        -label: 'pad'
        doc: 'Zero.'
      - id: file_id
        type: u4
        -label: 'fileID'
        doc: 'Catalog id of the file.'
      - id: start_block
        type: u4
        -label: 'startBlock'
        doc: 'Block of the fork that the first extent holds.'
  extents_data:
    doc: 'Eight extents.'
    seq:
      - id: extents
        type: extent_descriptor
        repeat: expr
        repeat-expr: 8
        -label: 'extents'
        doc: 'The next extents of the fork.'
  extent_descriptor:
    doc: 'A run of allocation blocks.'
    seq:
      - id: start_block
        type: u4
        -link: cluster
        -label: 'startBlock'
        doc: 'First allocation block.'
      - id: block_count
        type: u4
        -label: 'blockCount'
        doc: 'Number of allocation blocks.'
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
  fork_type:
    0:
      id: data
      -label: 'Data fork'
    0xFF:
      id: resource
      -label: 'Resource fork'
