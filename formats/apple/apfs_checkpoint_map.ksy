meta:
  id: apfs_checkpoint_map
  title: 'APFS checkpoint map'
  endian: le
  -kinds: [object]
doc: 'Says where the ephemeral objects of a checkpoint lie.'
doc-ref: 'Apple File System Reference, Container, by way of apfs_raw.h (linux-apfs)'
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
  - id: cpm_flags
    type: u4
    -unit: flags
    -flags: {0x1: "last map"}
    -label: 'cpm_flags'
    doc: 'Flags.'
  - id: cpm_count
    type: u4
    -label: 'cpm_count'
    doc: 'Entries.'
  - id: cpm_map
    type: mapping
    repeat: expr
    repeat-expr: cpm_count
    -label: 'cpm_map'
    doc: 'The entries.'
types:
  mapping:
    doc: 'An ephemeral object.'
    seq:
      - id: cpm_type
        type: u4
        -unit: hex
        -label: 'cpm_type'
        doc: 'Type of the object.'
      - id: cpm_subtype
        type: u4
        -unit: hex
        -label: 'cpm_subtype'
        doc: 'Its subtype.'
      - id: cpm_size
        type: u4
        -unit: bytes
        -label: 'cpm_size'
        doc: 'Its bytes.'
      - id: cpm_pad
        type: u4
        -label: 'cpm_pad'
        doc: 'Not used.'
      - id: cpm_fs_oid
        type: u8
        -label: 'cpm_fs_oid'
        doc: 'Volume that it belongs to, or 0.'
      - id: cpm_oid
        type: u8
        -label: 'cpm_oid'
        doc: 'Its id.'
      - id: cpm_paddr
        type: u8
        -link: cluster
        -label: 'cpm_paddr'
        doc: 'Its block.'
