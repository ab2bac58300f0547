meta:
  id: hfsplus_journal_info_block
  title: 'HFS+ journal info block'
  endian: be
  -kinds: [journal]
doc: 'Says where the journal lies.'
doc-ref: 'Apple TN1150, Journal Info Block, by way of hfs_format.h (xnu)'
seq:
  - id: flags
    type: u4
    -unit: flags
    -flags: {0x1: "in the volume", 0x2: "on another device", 0x4: "needs to be made"}
    -label: 'flags'
    doc: 'Where the journal lies, and whether it was made.'
  - id: device_signature
    type: u4
    repeat: expr
    repeat-expr: 8
    -unit: hex
    -label: 'device_signature'
    doc: 'Identity of the other device.'
  - id: offset
    type: u8
    -unit: bytes
    -label: 'offset'
    doc: 'Byte of the journal from the start of the volume.'
  - id: size
    type: u8
    -unit: bytes
    -label: 'size'
    doc: 'Bytes of the journal, its header included.'
  - id: reserved
    size: 128
    -label: 'reserved'
    doc: 'Reserved.'
