meta:
  id: apfs_space_manager
  title: 'APFS space manager'
  endian: le
  -kinds: [object]
doc: 'Blocks in use and free ones of the container.'
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
  - id: sm_block_size
    type: u4
    -unit: bytes
    -label: 'sm_block_size'
    doc: 'Bytes of a block.'
  - id: sm_blocks_per_chunk
    type: u4
    -label: 'sm_blocks_per_chunk'
    doc: 'Blocks of a chunk.'
  - id: sm_chunks_per_cib
    type: u4
    -label: 'sm_chunks_per_cib'
    doc: 'Chunks in a chunk-info block.'
  - id: sm_cibs_per_cab
    type: u4
    -label: 'sm_cibs_per_cab'
    doc: 'Chunk-info blocks in an address block.'
  - id: sm_dev
    type: device
    repeat: expr
    repeat-expr: 2
    -label: 'sm_dev'
    doc: 'Main device, then the second of a Fusion set.'
  - id: sm_flags
    type: u4
    -unit: hex
    -label: 'sm_flags'
    doc: 'Flags.'
  - id: sm_ip_bm_tx_multiplier
    type: u4
    -label: 'sm_ip_bm_tx_multiplier'
    doc: 'Factor for the bitmaps of the internal pool.'
  - id: sm_ip_block_count
    type: u8
    -label: 'sm_ip_block_count'
    doc: 'Blocks of the internal pool.'
  - id: sm_ip_bm_size_in_blocks
    type: u4
    -label: 'sm_ip_bm_size_in_blocks'
    doc: 'Blocks of one bitmap of the pool.'
  - id: sm_ip_bm_block_count
    type: u4
    -label: 'sm_ip_bm_block_count'
    doc: 'Blocks of all bitmaps of the pool.'
  - id: sm_ip_bm_base
    type: u8
    -link: cluster
    -label: 'sm_ip_bm_base'
    doc: 'First block of the bitmaps of the pool.'
  - id: sm_ip_base
    type: u8
    -link: cluster
    -label: 'sm_ip_base'
    doc: 'First block of the pool.'
  - id: sm_fs_reserve_block_count
    type: u8
    -label: 'sm_fs_reserve_block_count'
    doc: 'Blocks reserved for volumes.'
  - id: sm_fs_reserve_alloc_count
    type: u8
    -label: 'sm_fs_reserve_alloc_count'
    doc: 'Of them in use.'
  - id: sm_fq
    type: free_queue
    repeat: expr
    repeat-expr: 3
    -label: 'sm_fq'
    doc: 'Blocks that will be free: pool, main device, second device.'
  - id: sm_ip_bm_free_head
    type: u2
    -label: 'sm_ip_bm_free_head'
    doc: 'First free bitmap of the pool.'
  - id: sm_ip_bm_free_tail
    type: u2
    -label: 'sm_ip_bm_free_tail'
    doc: 'Last free bitmap of the pool.'
  - id: sm_ip_bm_xid_offset
    type: u4
    -unit: bytes
    -label: 'sm_ip_bm_xid_offset'
    doc: 'Place of the transactions of the bitmaps.'
  - id: sm_ip_bitmap_offset
    type: u4
    -unit: bytes
    -label: 'sm_ip_bitmap_offset'
    doc: 'Place of the numbers of the bitmaps.'
  - id: sm_ip_bm_free_next_offset
    type: u4
    -unit: bytes
    -label: 'sm_ip_bm_free_next_offset'
    doc: 'Place of the chain of free bitmaps.'
  - id: sm_version
    type: u4
    -label: 'sm_version'
    doc: 'Version.'
  - id: sm_struct_size
    type: u4
    -unit: bytes
    -label: 'sm_struct_size'
    doc: 'Bytes of the structure.'
types:
  device:
    doc: 'A device.'
    seq:
      - id: sm_block_count
        type: u8
        -label: 'sm_block_count'
        doc: 'Blocks.'
      - id: sm_chunk_count
        type: u8
        -label: 'sm_chunk_count'
        doc: 'Chunks.'
      - id: sm_cib_count
        type: u4
        -label: 'sm_cib_count'
        doc: 'Chunk-info blocks.'
      - id: sm_cab_count
        type: u4
        -label: 'sm_cab_count'
        doc: 'Address blocks; 0 where the list names the chunk-info blocks.'
      - id: sm_free_count
        type: u8
        -label: 'sm_free_count'
        doc: 'Free blocks.'
      - id: sm_addr_offset
        type: u4
        -unit: bytes
        -label: 'sm_addr_offset'
        doc: 'Byte of the list in this object.'
      - id: sm_reserved
        type: u4
        -label: 'sm_reserved'
        doc: 'Reserved.'
      - id: sm_reserved2
        type: u8
        -label: 'sm_reserved2'
        doc: 'Reserved.'
  free_queue:
    doc: 'Blocks that will be free.'
    seq:
      - id: sfq_count
        type: u8
        -label: 'sfq_count'
        doc: 'Blocks.'
      - id: sfq_tree_oid
        type: u8
        -label: 'sfq_tree_oid'
        doc: 'Tree of them (ephemeral id).'
      - id: sfq_oldest_xid
        type: u8
        -label: 'sfq_oldest_xid'
        doc: 'Oldest transaction in it.'
      - id: sfq_tree_node_limit
        type: u2
        -label: 'sfq_tree_node_limit'
        doc: 'Most nodes of the tree.'
      - id: sfq_pad16
        type: u2
        -label: 'sfq_pad16'
        doc: 'Not used.'
      - id: sfq_pad32
        type: u4
        -label: 'sfq_pad32'
        doc: 'Not used.'
      - id: sfq_reserved
        type: u8
        -label: 'sfq_reserved'
        doc: 'Reserved.'
