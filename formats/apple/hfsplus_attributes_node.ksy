meta:
  id: hfsplus_attributes_node
  title: 'HFS+ node of the attributes tree'
  endian: be
  -kinds: [btree-node]
doc: 'A leaf or index node: descriptor, records, and their offsets at the end of the node, counted backwards.'
doc-ref: 'Apple TN1150, B-Trees and Attributes File, by way of hfs_format.h (xnu)'
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
        type: attribute_data
        if: '_root.kind == node_kind::leaf'
        -label: 'data'
        doc: 'What the key stands for.'
  key:
    doc: 'The key.'
    seq:
      - id: pad
        type: u2
        -label: 'pad'
        doc: 'Zero.'
      - id: file_id
        type: u4
        -label: 'fileID'
        doc: 'Catalog id of the file.'
      - id: start_block
        type: u4
        -label: 'startBlock'
        doc: 'Block of the attribute that the extents start with.'
      - id: name_length
        type: u2
        -label: 'attrNameLen'
        doc: 'Characters of the name.'
      - id: name
        type: str
        size: name_length * 2
        encoding: UTF-16BE
        -label: 'attrName'
        doc: 'Name of the attribute.'
  attribute_data:
    doc: 'An attribute.'
    seq:
      - id: record_type
        type: u4
        enum: record_type
        -label: 'recordType'
        doc: 'How it is kept.'
      - id: reserved
        type: u4
        -label: 'reserved'
        doc: 'Reserved.'
      - id: body
        type:
          switch-on: record_type
          cases:
            'record_type::inline_data': inline_data
            'record_type::fork': fork_data
            'record_type::extents': extents_data
        doc: 'Its fields.'
  inline_data:
    doc: 'A short attribute.'
    seq:
      - id: reserved
        type: u4
        -label: 'reserved'
        doc: 'Reserved.'
      - id: attr_size
        type: u4
        -unit: bytes
        -label: 'attrSize'
        doc: 'Bytes of the data.'
      - id: attr_data
        size: attr_size
        -label: 'attrData'
        doc: 'The data.'
  extents_data:
    doc: 'Eight extents.'
    seq:
      - id: extents
        type: extent_descriptor
        repeat: expr
        repeat-expr: 8
        -label: 'extents'
        doc: 'The next extents of the attribute.'
  fork_data:
    doc: 'Size and first extents of a fork.'
    seq:
      - id: logical_size
        type: u8
        -unit: bytes
        -label: 'logicalSize'
        doc: 'Bytes.'
      - id: clump_size
        type: u4
        -unit: bytes
        -label: 'clumpSize'
        doc: 'Clump size.'
      - id: total_blocks
        type: u4
        -label: 'totalBlocks'
        doc: 'Allocation blocks of all extents.'
      - id: extents
        type: extent_descriptor
        repeat: expr
        repeat-expr: 8
        -label: 'extents'
        doc: 'The first eight extents.'
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
  record_type:
    0x10:
      id: inline_data
      -label: 'Inline data'
    0x20:
      id: fork
      -label: 'Fork'
    0x30:
      id: extents
      -label: 'Extents'
