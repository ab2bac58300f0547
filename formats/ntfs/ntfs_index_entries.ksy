meta:
  id: ntfs_index_entries
  title: NTFS index entries
  endian: le
  imports:
    - ntfs_reference
    - ntfs_file_name
doc: Index header and the entries after it, as they stand in an index root and in an index block.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct INDEX_HDR and NTFS_DE
params:
  - id: folder
    type: bool
seq:
  - id: first_entry
    type: u4
    -label: First entry
    -unit: dec
    doc: Offset of the first entry, from the start of this header.
  - id: used
    type: u4
    -label: Bytes used
    -unit: bytes
    doc: Up to the end of the last entry, from the start of this header.
  - id: allocated
    type: u4
    -label: Bytes allocated
    -unit: bytes
    doc: Room for entries, from the start of this header.
  - id: flags
    type: u1
    -label: Flags
    -unit: flags
    -flags: {0x1: has sub-nodes}
    doc: Whether entries lead to further blocks.
  - id: padding
    size: 3
    -label: Padding
    doc: Zero.
instances:
  entries:
    pos: first_entry
    type: entry
    if: first_entry >= 16 and first_entry < _io.size
    -label: Entry
    doc: One name or key.
    repeat: until
    repeat-until: _.is_last or _.entry_length < 16 or _io.size - _io.pos < 16
types:
  entry:
    seq:
      - id: reference
        type: ntfs_reference
        if: _parent.folder
        -label: Record
        doc: The file that has the name.
      - id: data_position
        size: 8
        if: not _parent.folder
        -label: Data of the key
        doc: Offset and length of the data that belong to the key.
      - id: entry_length
        type: u2
        -label: Entry length
        -unit: bytes
        doc: Bytes to the next entry.
      - id: key_length
        type: u2
        -label: Key length
        -unit: bytes
        doc: Bytes of the key.
      - id: flags
        type: u2
        -label: Flags
        -unit: flags
        -flags: {0x1: has a sub-node, 0x2: last entry}
        doc: Whether a block with smaller keys hangs here, and whether this is the end.
      - id: reserved
        type: u2
        -label: Reserved
        doc: Zero.
      - id: name
        size: key_length
        type: ntfs_file_name
        if: _parent.folder and not is_last and key_length >= 66 and key_length <= entry_length - 16
        -label: Name
        doc: The key of a folder's index.
      - id: key
        size: key_length
        if: not _parent.folder and not is_last and key_length <= entry_length - 16
        -label: Key
        doc: The key.
      - id: rest
        size: 'entry_length - 16 - (is_last or key_length > entry_length - 16 ? 0 : key_length) - (has_sub_node ? 8 : 0)'
        if: 'entry_length >= 16 + (is_last or key_length > entry_length - 16 ? 0 : key_length) + (has_sub_node ? 8 : 0) and (not _parent.folder or is_last or key_length >= 66)'
        -label: Padding or data
        doc: Padding to a multiple of 8, or data of the key.
      - id: sub_node
        type: u8
        if: has_sub_node
        -label: Sub-node
        -unit: dec
        doc: Number of the index block with smaller keys.
    instances:
      is_last:
        value: flags % 4 >= 2
        -label: Last entry
        doc: Whether this is the end of the node.
      has_sub_node:
        value: flags % 2 == 1
        -label: Has a sub-node
        doc: Whether a block with smaller keys hangs here.
