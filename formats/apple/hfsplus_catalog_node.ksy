meta:
  id: hfsplus_catalog_node
  title: 'HFS+ node of the catalog tree'
  endian: be
  -kinds: [btree-node]
doc: 'A leaf or index node: descriptor, records, and their offsets at the end of the node, counted backwards.'
doc-ref: 'Apple TN1150, B-Trees and Catalog File, by way of hfs_format.h (xnu)'
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
        type: catalog_data
        if: '_root.kind == node_kind::leaf'
        -label: 'data'
        doc: 'What the key stands for.'
  key:
    doc: 'The key.'
    seq:
      - id: parent_id
        type: u4
        -label: 'parentID'
        doc: 'Catalog id of the folder; in a thread record the id itself.'
      - id: name_length
        type: u2
        -label: 'nodeName length'
        doc: 'Characters of the name.'
      - id: name
        type: str
        size: name_length * 2
        encoding: UTF-16BE
        -label: 'nodeName'
        doc: 'The name, decomposed.'
  catalog_data:
    doc: 'A folder, file or thread.'
    seq:
      - id: record_type
        type: u2
        enum: record_type
        -label: 'recordType'
        doc: 'Which of them.'
      - id: body
        type:
          switch-on: record_type
          cases:
            'record_type::folder': item(true)
            'record_type::file': item(false)
            'record_type::folder_thread': thread
            'record_type::file_thread': thread
        doc: 'Its fields.'
  thread:
    doc: 'Leads from an id to its folder and name.'
    seq:
      - id: reserved
        type: s2
        -label: 'reserved'
        doc: 'Reserved.'
      - id: parent_id
        type: u4
        -label: 'parentID'
        doc: 'Catalog id of the folder.'
      - id: name_length
        type: u2
        -label: 'nodeName length'
        doc: 'Characters of the name.'
      - id: name
        type: str
        size: name_length * 2
        encoding: UTF-16BE
        -label: 'nodeName'
        doc: 'The name, decomposed.'
  item:
    doc: 'A folder or file.'
    params:
      - id: folder
        type: bool
        doc: 'Whether it is a folder.'
    seq:
      - id: flags
        type: u2
        -unit: flags
        -flags: {0x1: "locked", 0x2: "has a thread record", 0x4: "has attributes", 0x8: "has security", 0x10: "has folder count", 0x20: "has a link chain"}
        -label: 'flags'
        doc: 'Flags.'
      - id: valence
        type: u4
        -label: 'valence'
        doc: 'Number of children; reserved in a file.'
      - id: catalog_id
        type: u4
        -label: 'folderID / fileID'
        doc: 'Catalog id.'
      - id: create_date
        type: u4
        -unit: mac-time
        -label: 'createDate'
        doc: 'Made.'
      - id: content_mod_date
        type: u4
        -unit: mac-time
        -label: 'contentModDate'
        doc: 'Content changed.'
      - id: attribute_mod_date
        type: u4
        -unit: mac-time
        -label: 'attributeModDate'
        doc: 'Anything of the record changed.'
      - id: access_date
        type: u4
        -unit: mac-time
        -label: 'accessDate'
        doc: 'Read.'
      - id: backup_date
        type: u4
        -unit: mac-time
        -label: 'backupDate'
        doc: 'Backed up.'
      - id: owner_id
        type: u4
        -label: 'ownerID'
        doc: 'Owner.'
      - id: group_id
        type: u4
        -label: 'groupID'
        doc: 'Group.'
      - id: admin_flags
        type: u1
        -unit: hex
        -label: 'adminFlags'
        doc: 'Flags that the system administrator sets.'
      - id: owner_flags
        type: u1
        -unit: flags
        -flags: {0x1: "no dump", 0x2: "immutable", 0x4: "append only", 0x8: "opaque", 0x20: "compressed"}
        -label: 'ownerFlags'
        doc: 'Flags that the owner sets.'
      - id: file_mode
        type: u2
        -unit: hex
        -label: 'fileMode'
        doc: 'Type and rights.'
      - id: special
        type: u4
        -label: 'special'
        doc: 'Inode of a hard link, number of links, or device.'
      - id: user_info
        size: 16
        -label: 'userInfo'
        doc: 'For the Finder; in a file its first eight bytes are type and creator.'
      - id: finder_info
        size: 16
        -label: 'finderInfo'
        doc: 'For the Finder.'
      - id: text_encoding
        type: u4
        -label: 'textEncoding'
        doc: 'Hint for the name.'
      - id: reserved2
        type: u4
        -label: 'reserved2'
        doc: 'Reserved; a folder may count its folders here.'
      - id: data_fork
        type: fork_data
        if: not folder
        -label: 'dataFork'
        doc: 'The content.'
      - id: resource_fork
        type: fork_data
        if: not folder
        -label: 'resourceFork'
        doc: 'The resource fork.'
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
    1:
      id: folder
      -label: 'Folder'
    2:
      id: file
      -label: 'File'
    3:
      id: folder_thread
      -label: 'Folder thread'
    4:
      id: file_thread
      -label: 'File thread'
