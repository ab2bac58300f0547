meta:
  id: xfs_agfl
  title: 'XFS free list (AGFL)'
  endian: be
  -kinds: [group-header]
doc: 'Fourth sector of an allocation group: blocks set aside for the free space trees.'
doc-ref: 'measured on volumes made by mkfs.xfs 6.1'
seq:
  - id: agfl_magicnum
    type: strz
    size: 4
    encoding: ASCII
    -label: 'agfl_magicnum'
    doc: '"XAFL".'
  - id: agfl_seqno
    type: u4
    -label: 'agfl_seqno'
    doc: 'Number of the group.'
  - id: agfl_uuid
    size: 16
    -unit: uuid
    -label: 'agfl_uuid'
    doc: 'Identity of the volume.'
  - id: agfl_lsn
    type: u8
    -unit: hex
    -label: 'agfl_lsn'
    doc: 'Last log sequence.'
  - id: agfl_crc
    type: u4le
    -unit: hex
    -label: 'agfl_crc'
    doc: 'CRC-32C of the sector with this field zero; little endian.'
  - id: agfl_bno
    type: u4
    repeat: eos
    -unit: hex
    -label: 'agfl_bno'
    doc: 'Blocks of the group.'
