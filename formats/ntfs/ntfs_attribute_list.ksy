meta:
  id: ntfs_attribute_list
  title: NTFS attribute list
  endian: le
  imports:
    - ntfs_reference
doc: Value of an $ATTRIBUTE_LIST attribute. It says in which file records the attributes of a large file stand, piece by piece.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct ATTR_LIST_ENTRY; NTFS-3G include/ntfs-3g/layout.h
seq:
  - id: entries
    type: entry
    -label: Entry
    doc: One attribute, or one piece of it.
    repeat: until
    repeat-until: _.entry_length < 26 or _io.size - _io.pos < 26
types:
  entry:
    seq:
      - id: attribute_type
        type: u4
        -label: Type
        -unit: hex
        -values: {0x10: "$STANDARD_INFORMATION", 0x20: "$ATTRIBUTE_LIST", 0x30: "$FILE_NAME", 0x40: "$OBJECT_ID", 0x50: "$SECURITY_DESCRIPTOR", 0x60: "$VOLUME_NAME", 0x70: "$VOLUME_INFORMATION", 0x80: "$DATA", 0x90: "$INDEX_ROOT", 0xa0: "$INDEX_ALLOCATION", 0xb0: "$BITMAP", 0xc0: "$REPARSE_POINT", 0xd0: "$EA_INFORMATION", 0xe0: "$EA", 0xf0: "$PROPERTY_SET", 0x100: "$LOGGED_UTILITY_STREAM", 0xffffffff: "end of the list"}
        doc: Type of the attribute.
      - id: entry_length
        type: u2
        -label: Entry length
        -unit: bytes
        doc: Bytes to the next entry.
      - id: rest
        size: 'entry_length >= 26 ? entry_length - 6 : 0'
        type: entry_rest
        -label: Piece
        doc: Where the piece stands.
  entry_rest:
    seq:
      - id: name_length
        type: u1
        -label: Name length
        -unit: dec
        doc: In UTF-16 units.
      - id: name_offset
        type: u1
        -label: Name offset
        -unit: dec
        doc: From the start of the entry; 26.
      - id: lowest_vcn
        type: u8
        -label: Lowest VCN
        -unit: dec
        doc: First cluster of the stream in this piece.
      - id: reference
        type: ntfs_reference
        -label: Record
        doc: The file record that holds the piece.
      - id: attribute_id
        type: u2
        -label: Attribute id
        -unit: dec
        doc: Its id in that record.
      - id: name
        type: str
        size: name_length * 2
        encoding: UTF-16LE
        -label: Name
        doc: Name of the attribute.
