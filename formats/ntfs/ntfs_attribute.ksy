meta:
  id: ntfs_attribute
  title: NTFS attribute
  endian: le
  imports:
    - ntfs_standard_information
    - ntfs_attribute_list
    - ntfs_file_name
    - ntfs_security_descriptor
    - ntfs_index_root
    - ntfs_reparse_point
    - ntfs_runs
doc: |
  An attribute in a file record, its header, its name and its value. A resident value stands here; a non-resident one lies in the clusters
  that the data runs name.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct ATTRIB; NTFS-3G include/ntfs-3g/layout.h
seq:
  - id: attribute_type
    type: u4
    -label: Type
    -unit: hex
    -values: {0x10: "$STANDARD_INFORMATION", 0x20: "$ATTRIBUTE_LIST", 0x30: "$FILE_NAME", 0x40: "$OBJECT_ID", 0x50: "$SECURITY_DESCRIPTOR", 0x60: "$VOLUME_NAME", 0x70: "$VOLUME_INFORMATION", 0x80: "$DATA", 0x90: "$INDEX_ROOT", 0xa0: "$INDEX_ALLOCATION", 0xb0: "$BITMAP", 0xc0: "$REPARSE_POINT", 0xd0: "$EA_INFORMATION", 0xe0: "$EA", 0xf0: "$PROPERTY_SET", 0x100: "$LOGGED_UTILITY_STREAM", 0xffffffff: "end of the list"}
    doc: What the attribute holds; FFFFFFFF ends the list.
  - id: attribute_length
    type: u4
    if: not is_end
    -label: Length
    -unit: bytes
    doc: Bytes to the next attribute.
  - id: body
    size: 'attribute_length >= 24 ? attribute_length - 8 : 0'
    type: body(code)
    if: not is_end
    -label: Attribute
    doc: Rest of the header, name and value.
instances:
  code:
    value: '(attribute_type <= 0xffff ? attribute_type : 0).as<u2>'
    -label: Type, as far as it is known
    -unit: hex
    doc: 0 where the type is larger than any that is known.
  is_end:
    value: attribute_type == 0xffffffff
    -label: End mark
    doc: Whether this is the end of the list.
types:
  body:
    params:
      - id: code
        type: u2
    seq:
      - id: non_resident
        type: u1
        -label: Non-resident
        -values: {0: "resident, the value stands in the record", 1: "non-resident, the value lies in clusters"}
        doc: 0 or 1.
      - id: name_length
        type: u1
        -label: Name length
        -unit: dec
        doc: In UTF-16 units; 0 for no name.
      - id: name_offset
        type: u2
        -label: Name offset
        -unit: hex
        doc: From the start of the attribute.
      - id: flags
        type: u2
        -label: Flags
        -unit: flags
        -flags: {0x1: compressed, 0x4000: encrypted, 0x8000: sparse}
        doc: How the value is stored.
      - id: attribute_id
        type: u2
        -label: Attribute id
        -unit: dec
        doc: Unique in the record.
      - id: resident
        type: resident(code)
        if: non_resident == 0
        -label: Resident value
        doc: Place of the value in the record.
      - id: extent
        type: non_resident
        if: non_resident == 1
        -label: Non-resident value
        doc: Sizes and place of the value.
    instances:
      name:
        pos: name_offset - 8
        type: str
        size: name_length * 2
        encoding: UTF-16LE
        if: name_length > 0 and name_offset >= 24
        -label: Name
        doc: Name of the attribute; of a stream for $DATA, $I30 for folder indexes.
      value:
        pos: resident.value_offset - 8
        size: resident.value_length
        if: non_resident == 0 and resident.value_offset >= 24
        type:
          switch-on: code
          cases:
            0x10: ntfs_standard_information
            0x20: ntfs_attribute_list
            0x30: ntfs_file_name
            0x40: object_id
            0x50: ntfs_security_descriptor
            0x60: volume_name
            0x70: volume_information
            0x90: ntfs_index_root
            0xc0: ntfs_reparse_point
            0xd0: ea_information
        -label: Value
        doc: What the attribute holds.
      data_runs:
        pos: extent.runs_offset - 8
        type: ntfs_runs
        if: non_resident == 1 and extent.runs_offset >= 64 and extent.runs_offset - 8 < _io.size
        size-eos: true
        -label: Data runs
        doc: Where the clusters of the value lie.
  resident:
    params:
      - id: code
        type: u2
    seq:
      - id: value_length
        type: u4
        -label: Value length
        -unit: bytes
        doc: Bytes of the value.
      - id: value_offset
        type: u2
        -label: Value offset
        -unit: hex
        doc: From the start of the attribute.
      - id: indexed
        type: u1
        -label: Indexed
        -values: {0: "not in an index", 1: "the value also stands in an index"}
        doc: 1 for file names.
      - id: padding
        type: u1
        -label: Padding
        doc: Zero.
  non_resident:
    seq:
      - id: lowest_vcn
        type: u8
        -label: Lowest VCN
        -unit: dec
        doc: First cluster of the value in this piece.
      - id: highest_vcn
        type: u8
        -label: Highest VCN
        -unit: signed
        doc: Last cluster of the value in this piece; -1 for an empty one.
      - id: runs_offset
        type: u2
        -label: Data runs offset
        -unit: hex
        doc: From the start of the attribute.
      - id: compression_unit
        type: u1
        -label: Compression unit
        -unit: dec
        doc: Power of two of the clusters that are compressed together; 4 stands for 16. 0 where nothing is compressed.
      - id: padding
        size: 5
        -label: Padding
        doc: Zero.
      - id: allocated_size
        type: u8
        -label: Allocated size
        -unit: bytes
        doc: Bytes of all clusters of the value. Only in its first piece.
      - id: real_size
        type: u8
        -label: Real size
        -unit: bytes
        doc: Bytes of the value. Only in its first piece.
      - id: initialised_size
        type: u8
        -label: Initialised size
        -unit: bytes
        doc: Bytes ever written; what lies beyond reads as zero. Only in its first piece.
      - id: total_allocated
        type: u8
        if: runs_offset >= 72 and (_parent.flags % 256 != 0 or _parent.flags >= 0x8000)
        -label: Total allocated
        -unit: bytes
        doc: Bytes of the clusters really used by a compressed or sparse value.
  object_id:
    doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct OBJECT_ID
    seq:
      - id: object_id
        size: 16
        -label: Object id
        -unit: guid
        doc: Identity by which link tracking knows the file.
      - id: birth_ids
        size: 16
        -unit: guid
        -label: Birth volume, object and domain id
        doc: Where the file was made.
        repeat: until
        repeat-until: _io.size - _io.pos < 16
        if: _io.size >= 32
  volume_name:
    seq:
      - id: label
        type: str
        size-eos: true
        encoding: UTF-16LE
        -label: Volume label
        doc: At most 128 UTF-16 units.
  volume_information:
    doc-ref: NTFS-3G include/ntfs-3g/layout.h, VOLUME_INFORMATION
    seq:
      - id: reserved
        type: u8
        -label: Reserved
        doc: Zero.
      - id: major_version
        type: u1
        -label: Major version
        doc: 3 since 2000.
      - id: minor_version
        type: u1
        -label: Minor version
        doc: 1 since 2001.
      - id: flags
        type: u2
        -label: Flags
        -unit: flags
        -flags: {0x1: dirty, 0x2: resize log, 0x4: upgrade on mount, 0x8: mounted on version 4, 0x10: delete journal underway, 0x20: repair object ids, 0x4000: checker running, 0x8000: modified by a checker}
        doc: A dirty volume was not closed cleanly.
  ea_information:
    doc-ref: NTFS-3G include/ntfs-3g/layout.h, EA_INFORMATION
    seq:
      - id: packed_size
        type: u2
        -label: Packed size
        -unit: bytes
        doc: Of the extended attributes.
      - id: needed
        type: u2
        -label: Needed attributes
        -unit: dec
        doc: How many of them a reader must understand.
      - id: unpacked_size
        type: u4
        -label: Unpacked size
        -unit: bytes
        doc: Of the extended attributes.
