meta:
  id: apfs_chunk_info_block
  title: 'APFS chunk-info block'
  endian: le
  -kinds: [object]
doc: 'Free blocks and bitmaps of chunks.'
doc-ref: 'Apple File System Reference, Space Manager, by way of apfs_raw.h (linux-apfs)'
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
  - id: cib_index
    type: u4
    -label: 'cib_index'
    doc: 'Number of this block.'
  - id: cib_chunk_info_count
    type: u4
    -label: 'cib_chunk_info_count'
    doc: 'Chunks.'
  - id: cib_chunk_info
    type: chunk_info
    repeat: expr
    repeat-expr: cib_chunk_info_count
    -label: 'cib_chunk_info'
    doc: 'The chunks.'
types:
  chunk_info:
    doc: 'A chunk of blocks.'
    seq:
      - id: ci_xid
        type: u8
        -label: 'ci_xid'
        doc: 'Transaction that changed it last.'
      - id: ci_addr
        type: u8
        -link: cluster
        -label: 'ci_addr'
        doc: 'First block.'
      - id: ci_block_count
        type: u4
        -label: 'ci_block_count'
        doc: 'Blocks.'
      - id: ci_free_count
        type: u4
        -label: 'ci_free_count'
        doc: 'Free blocks.'
      - id: ci_bitmap_addr
        type: u8
        -link: cluster
        -label: 'ci_bitmap_addr'
        doc: 'Block of the bitmap; 0 where all are free.'
