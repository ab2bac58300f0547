meta:
  id: luks1_header
  title: 'LUKS1 header'
  endian: be
  -kinds: [superblock]
doc: 'Header of a LUKS volume, version 1: cipher, digest of the key, eight key slots.'
doc-ref: 'libblkid superblock prober for LUKS (util-linux)'
seq:
  - id: magic
    size: 6
    -label: 'magic'
    doc: '"LUKS" BA BE.'
  - id: version
    type: u2
    -label: 'version'
    doc: '1.'
  - id: cipher_name
    type: strz
    size: 32
    encoding: ASCII
    -label: 'cipher-name'
    doc: 'Cipher.'
  - id: cipher_mode
    type: strz
    size: 32
    encoding: ASCII
    -label: 'cipher-mode'
    doc: 'Mode of the cipher.'
  - id: hash_spec
    type: strz
    size: 32
    encoding: ASCII
    -label: 'hash-spec'
    doc: 'Hash.'
  - id: payload_offset
    type: u4
    -unit: sectors512
    -label: 'payload-offset'
    doc: 'First sector of the content, in units of 512 bytes.'
  - id: key_bytes
    type: u4
    -label: 'key-bytes'
    doc: 'Bytes of the key.'
  - id: mk_digest
    size: 20
    -label: 'mk-digest'
    doc: 'Digest of the key.'
  - id: mk_digest_salt
    size: 32
    -label: 'mk-digest-salt'
    doc: 'Salt of the digest.'
  - id: mk_digest_iter
    type: u4
    -label: 'mk-digest-iter'
    doc: 'Iterations of the digest.'
  - id: uuid
    type: strz
    size: 40
    encoding: ASCII
    -label: 'uuid'
    doc: 'Identity as text.'
  - id: key_slots
    type: key_slot
    repeat: expr
    repeat-expr: 8
    -label: 'key-slots'
    doc: 'Key slots.'
types:
  key_slot:
    doc: 'A place of the key under one passphrase.'
    seq:
      - id: active
        type: u4
        enum: slot_state
        -label: 'active'
        doc: 'Whether the slot is in use.'
      - id: iterations
        type: u4
        -label: 'iterations'
        doc: 'Iterations.'
      - id: salt
        size: 32
        -label: 'salt'
        doc: 'Salt.'
      - id: key_material_offset
        type: u4
        -unit: sectors512
        -label: 'key-material-offset'
        doc: 'First sector of the key material.'
      - id: stripes
        type: u4
        -label: 'stripes'
        doc: 'Stripes, 4000.'
enums:
  slot_state:
    0x00AC71F3:
      id: in_use
      -label: 'In use'
    0x0000DEAD:
      id: not_in_use
      -label: 'Not in use'
