meta:
  id: ntfs_file_record
  title: NTFS file record
  endian: le
  imports:
    - ntfs_reference
    - ntfs_update_sequence
    - ntfs_attribute
  -kinds: [file record]
doc: |
  One record of $MFT, everything about a file: header, then attributes for times, names, content and folder index. Decoded with its
  update sequence undone, so that the last two bytes of each 512 are the original ones.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct MFT_REC; Microsoft, Master File Table (developer notes)
seq:
  - id: signature
    type: str
    size: 4
    encoding: ASCII
    -label: Signature
    doc: FILE; BAAD where a writer met a torn record.
    valid:
      any-of: ['"FILE"', '"BAAD"']
  - id: update_sequence_offset
    type: u2
    -label: Update sequence offset
    -unit: hex
    doc: From the start of the record; 30 (hex) since version 3.1, 2A before.
  - id: update_sequence_count
    type: u2
    -label: Update sequence count
    -unit: dec
    doc: 1 and one for each 512 bytes of the record.
  - id: log_sequence_number
    type: u8
    -label: Log sequence number
    -unit: hex
    doc: Last change in $LogFile.
  - id: sequence_number
    type: u2
    -label: Sequence number
    -unit: dec
    doc: Counts how often the record was used; references must carry the same number.
  - id: hard_links
    type: u2
    -label: Hard links
    -unit: dec
    doc: Number of names.
  - id: first_attribute
    type: u2
    -label: First attribute offset
    -unit: hex
    doc: From the start of the record.
  - id: flags
    type: u2
    -label: Flags
    -unit: flags
    -flags: {0x1: in use, 0x2: folder, 0x4: member of $Extend, 0x8: has a view index}
    doc: A cleared first bit means that the file was deleted.
  - id: used_size
    type: u4
    -label: Bytes used
    -unit: bytes
    doc: Up to 8 bytes after the end mark.
  - id: allocated_size
    type: u4
    -label: Bytes allocated
    -unit: bytes
    doc: Size of the record.
  - id: base_record
    type: ntfs_reference
    -label: Base record
    doc: All zero in a base record; in an extension record the record it belongs to.
  - id: next_attribute_id
    type: u2
    -label: Next attribute id
    -unit: dec
    doc: Above every id in the record.
  - id: reserved
    type: u2
    if: update_sequence_offset >= 0x30
    -label: Reserved
    doc: Zero.
  - id: record_number
    type: u4
    if: update_sequence_offset >= 0x30
    -label: Own number
    -unit: dec
    -link: record
    -format: ntfs_file_record
    doc: Number of this record in $MFT. Since version 3.1.
instances:
  update_sequence:
    pos: update_sequence_offset
    type: ntfs_update_sequence(update_sequence_count)
    if: update_sequence_offset >= 0x28 and update_sequence_offset < 512
    -label: Update sequence
    doc: The mark of this write and the original bytes.
  attributes:
    pos: first_attribute
    type: ntfs_attribute
    if: first_attribute >= 0x28 and first_attribute < _io.size - 8
    -label: Attribute
    doc: Times, names, content, indexes, one after the other.
    repeat: until
    repeat-until: _.is_end or _.attribute_length < 24 or _io.size - _io.pos < 8
