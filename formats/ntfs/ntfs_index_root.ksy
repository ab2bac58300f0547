meta:
  id: ntfs_index_root
  title: NTFS index root
  endian: le
  imports:
    - ntfs_index_entries
doc: Value of an $INDEX_ROOT attribute, the top of a sorted index. Folders have one named $I30.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct INDEX_ROOT
seq:
  - id: indexed_type
    type: u4
    -label: Indexed attribute
    -unit: hex
    doc: 30 (hex) for folders, whose keys are file names; 0 for view indexes.
  - id: collation
    type: u4
    enum: collation
    -label: Order
    doc: How keys are compared.
  - id: block_size
    type: u4
    -label: Index block size
    -unit: bytes
    doc: Size of the blocks below.
  - id: block_clusters
    type: u1
    -label: Clusters per index block
    -unit: dec
    doc: In clusters, or in units of 512 bytes where a cluster is larger than a block.
  - id: padding
    size: 3
    -label: Padding
    doc: Zero.
  - id: index
    type: ntfs_index_entries(indexed_type == 0x30)
    size-eos: true
    -label: Index
    doc: Header and entries.
enums:
  collation:
    0x0:
      id: binary
      -label: bytes
    0x1:
      id: file_name
      -label: file name
    0x2:
      id: unicode
      -label: Unicode string
    0x10:
      id: ulong
      -label: unsigned 32-bit number
    0x11:
      id: sid
      -label: security identifier
    0x12:
      id: security_hash
      -label: hash and security id
    0x13:
      id: ulongs
      -label: unsigned 32-bit numbers
