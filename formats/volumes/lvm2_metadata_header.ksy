meta:
  id: lvm2_metadata_header
  title: 'LVM2 metadata area header'
  endian: le
  -kinds: [metadata-header]
doc: 'Header of a metadata area: where the current text lies in the ring.'
doc-ref: 'LVM2 text format layout header'
seq:
  - id: checksum_xl
    type: u4
    -unit: hex
    -label: 'checksum_xl'
    doc: 'CRC of the bytes from 4 to 511.'
  - id: magic
    size: 16
    -label: 'magic'
    doc: 'Magic of the area.'
  - id: version
    type: u4
    -label: 'version'
    doc: '1.'
  - id: start
    type: u8
    -link: byte
    -label: 'start'
    doc: 'Byte of the area on the device.'
  - id: size
    type: u8
    -unit: bytes
    -label: 'size'
    doc: 'Bytes of the area.'
  - id: raw_locns
    type: location
    repeat: expr
    repeat-expr: 4
    -label: 'raw_locns'
    doc: 'Committed text, precommitted text, end mark.'
  - id: rest
    size-eos: true
    doc: 'Rest of the sector.'
types:
  location:
    doc: 'Where a text lies.'
    seq:
      - id: offset
        type: u8
        -label: 'offset'
        doc: 'Byte from the start of the area.'
      - id: size
        type: u8
        -unit: bytes
        -label: 'size'
        doc: 'Bytes of the text.'
      - id: checksum
        type: u4
        -unit: hex
        -label: 'checksum'
        doc: 'CRC of the text.'
      - id: flags
        type: u4
        -unit: hex
        -label: 'flags'
        doc: '1: ignored.'
