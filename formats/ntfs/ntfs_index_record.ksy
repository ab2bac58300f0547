meta:
  id: ntfs_index_record
  title: NTFS index block
  endian: le
  imports:
    - ntfs_update_sequence
    - ntfs_index_entries
  -kinds: [index block]
doc: One block of an $INDEX_ALLOCATION attribute, a sorted list of names. The update sequence is undone before decoding.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct INDEX_BUFFER
seq:
  - id: signature
    type: str
    size: 4
    encoding: ASCII
    -label: Signature
    doc: INDX, or BAAD where a checker met a torn block.
    valid:
      any-of: ['"INDX"', '"BAAD"']
  - id: update_sequence_offset
    type: u2
    -label: Update sequence offset
    -unit: hex
    doc: From the start of the block; 28 (hex).
  - id: update_sequence_count
    type: u2
    -label: Update sequence count
    -unit: dec
    doc: 1 and one for each 512 bytes of the block.
  - id: log_sequence_number
    type: u8
    -label: Log sequence number
    -unit: hex
    doc: Last change in $LogFile.
  - id: block_vcn
    type: u8
    -label: Own number
    -unit: dec
    doc: Place of the block in the index, in clusters, or in units of 512 bytes where a cluster is larger than a block.
instances:
  update_sequence:
    pos: update_sequence_offset
    type: ntfs_update_sequence(update_sequence_count)
    if: update_sequence_offset >= 40 and update_sequence_offset < 512
    -label: Update sequence
    doc: The mark of this write and the original bytes.
  index:
    pos: 24
    type: ntfs_index_entries(true)
    size-eos: true
    -label: Index
    doc: Header and entries.
