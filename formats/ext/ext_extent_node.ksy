meta:
  id: ext_extent_node
  title: 'ext extent node'
  endian: le
  -kinds: [extent-node]
doc: 'A block of an extent tree: header and entries.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, extent tree'
seq:
  - id: eh_magic
    type: u2
    -unit: hex
    valid: 0xF30A
    -label: 'eh_magic'
    doc: 'F30A in every node.'
  - id: eh_entries
    type: u2
    -label: 'eh_entries'
    doc: 'Entries in use.'
  - id: eh_max
    type: u2
    -label: 'eh_max'
    doc: 'Entries that have room.'
  - id: eh_depth
    type: u2
    -label: 'eh_depth'
    doc: 'Levels below this node; 0 is a leaf.'
  - id: eh_generation
    type: u4
    -label: 'eh_generation'
    doc: 'Generation; not used.'
  - id: leaves
    type: leaf_entry
    repeat: expr
    repeat-expr: eh_entries
    if: 'eh_depth == 0'
    -label: 'ext4_extent'
    doc: 'Runs of blocks.'
  - id: indexes
    type: index_entry
    repeat: expr
    repeat-expr: eh_entries
    if: 'eh_depth != 0'
    -label: 'ext4_extent_idx'
    doc: 'Nodes of the next level.'
  - id: unused
    size: '12 * (eh_max < eh_entries ? 0 : eh_max - eh_entries)'
    doc: 'Entries not in use; may hold remnants.'
  - id: et_checksum
    type: u4
    -unit: hex
    -label: 'et_checksum'
    doc: 'CRC-32C of the node up to here, from the inode''s seed; with metadata_csum.'
types:
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
