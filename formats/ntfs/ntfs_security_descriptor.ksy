meta:
  id: ntfs_security_descriptor
  title: Security descriptor
  endian: le
doc: Who owns a file and who may do what with it, in self-relative form.
doc-ref: Microsoft MS-DTYP, 2.4.6 SECURITY_DESCRIPTOR
seq:
  - id: revision
    type: u1
    -label: Revision
    doc: 1.
  - id: padding
    type: u1
    -label: Padding
    doc: Zero.
  - id: control
    type: u2
    -label: Control
    -unit: flags
    -flags: {0x1: owner defaulted, 0x2: group defaulted, 0x4: DACL present, 0x8: DACL defaulted, 0x10: SACL present, 0x20: SACL defaulted, 0x400: DACL auto-inherited, 0x800: SACL auto-inherited, 0x1000: DACL protected, 0x2000: SACL protected, 0x8000: self-relative}
    doc: What is present and how it came about.
  - id: owner_offset
    type: u4
    -label: Owner offset
    -unit: dec
    doc: From the start of the descriptor.
  - id: group_offset
    type: u4
    -label: Group offset
    -unit: dec
    doc: From the start of the descriptor.
  - id: sacl_offset
    type: u4
    -label: SACL offset
    -unit: dec
    doc: From the start of the descriptor; 0 where there is none.
  - id: dacl_offset
    type: u4
    -label: DACL offset
    -unit: dec
    doc: From the start of the descriptor; 0 where there is none.
instances:
  owner:
    pos: owner_offset
    type: sid
    if: owner_offset >= 20 and owner_offset < _io.size
    -label: Owner
    doc: Security identifier of the owner.
  group:
    pos: group_offset
    type: sid
    if: group_offset >= 20 and group_offset < _io.size
    -label: Group
    doc: Security identifier of the primary group.
  dacl:
    pos: dacl_offset
    type: acl
    if: dacl_offset >= 20 and dacl_offset < _io.size
    -label: DACL
    doc: Who may do what.
types:
  sid:
    seq:
      - id: revision
        type: u1
        -label: Revision
        doc: 1.
      - id: sub_count
        type: u1
        -label: Number of sub-authorities
        -unit: dec
        doc: At most 15.
      - id: authority
        size: 6
        -label: Authority
        doc: Big-endian.
      - id: subs
        type: u4
        -label: Sub-authority
        -unit: dec
        doc: Numbers of the identifier, in order.
        repeat: expr
        repeat-expr: 'sub_count <= 15 ? sub_count : 15'
  acl:
    seq:
      - id: revision
        type: u1
        -label: Revision
        doc: 2 or 4.
      - id: padding
        type: u1
        -label: Padding
        doc: Zero.
      - id: acl_size
        type: u2
        -label: Size
        -unit: bytes
        doc: Bytes of the list, this header included.
      - id: ace_count
        type: u2
        -label: Number of entries
        -unit: dec
        doc: Access control entries.
      - id: padding_2
        type: u2
        -label: Padding
        doc: Zero.
      - id: aces
        type: ace
        -label: Access control entry
        doc: One right.
        repeat: expr
        repeat-expr: 'ace_count <= 1024 ? ace_count : 1024'
  ace:
    seq:
      - id: ace_type
        type: u1
        -label: Type
        -unit: hex
        doc: 0 allows, 1 denies, 2 audits.
      - id: flags
        type: u1
        -label: Flags
        -unit: hex
        doc: Inheritance.
      - id: ace_size
        type: u2
        -label: Size
        -unit: bytes
        doc: Bytes of the entry, this header included.
      - id: body
        size: 'ace_size >= 4 ? ace_size - 4 : 0'
        -label: Mask and identifier
        doc: Access mask and security identifier.
