meta:
  id: ntfs_attribute_definition
  title: NTFS attribute definition
  endian: le
  -kinds: [attribute definition]
doc: One entry of $AttrDef, a type of attribute that the volume knows.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct ATTR_DEF_ENTRY
seq:
  - id: name
    type: str
    size: 128
    encoding: UTF-16LE
    -label: Name
    doc: Name of the type, filled up with zero.
  - id: attribute_type
    type: u4
    -label: Type
    -unit: hex
    doc: The code.
  - id: display_rule
    type: u4
    -label: Display rule
    doc: Not used.
  - id: collation_rule
    type: u4
    -label: Order
    -unit: hex
    doc: How values are compared.
  - id: flags
    type: u4
    -label: Flags
    -unit: flags
    -flags: {0x2: may be indexed, 0x40: always resident, 0x80: may be non-resident}
    doc: What is allowed.
  - id: min_size
    type: u8
    -label: Smallest size
    -unit: bytes
    doc: Of the value.
  - id: max_size
    type: u8
    -label: Largest size
    -unit: bytes
    doc: Of the value; all bits set means no limit.
