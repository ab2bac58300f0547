meta:
  id: hfsplus_journal_header
  title: 'HFS+ journal header'
  endian:
    switch-on: little
    cases:
      true: le
      false: be
  -kinds: [journal]
doc: 'The start of the journal, in the byte order of the computer that wrote it.'
doc-ref: 'Apple TN1150, Journal Header, by way of vfs_journal.c (xnu)'
params:
  - id: little
    type: bool
    doc: 'Whether the bytes are little endian.'
seq:
  - id: magic
    type: u4
    -unit: hex
    valid: 0x4A4E4C78
    -label: 'magic'
    doc: '"JNLx" as a number.'
  - id: byte_order
    type: u4
    -unit: hex
    valid: 0x12345678
    -label: 'endian'
    doc: '12345678 in the byte order of the writer.'
  - id: start
    type: u8
    -unit: bytes
    -label: 'start'
    doc: 'Byte of the oldest transaction, from the start of the journal.'
  - id: end
    type: u8
    -unit: bytes
    -label: 'end'
    doc: 'Byte after the newest transaction; equal to start where none waits.'
  - id: size
    type: u8
    -unit: bytes
    -label: 'size'
    doc: 'Bytes of the journal.'
  - id: blhdr_size
    type: u4
    -unit: bytes
    -label: 'blhdr_size'
    doc: 'Bytes of a block list header.'
  - id: checksum
    type: u4
    -unit: hex
    -label: 'checksum'
    doc: 'Over the 44 bytes of the header with this field as zero.'
  - id: jhdr_size
    type: u4
    -unit: bytes
    -label: 'jhdr_size'
    doc: 'Bytes of the header.'
