meta:
  id: udf_anchor
  title: 'UDF anchor volume descriptor pointer'
  endian: le
  -kinds: [anchor]
doc: 'Where the two volume descriptor sequences lie; at sector 256, at the last sector and 256 before it.'
doc-ref: 'ECMA-167, 3/10.2 and 3/7.2'
seq:
  - id: tag_identifier
    type: u2
    valid: 2
    -label: 'TagIdentifier'
    doc: '2 for an anchor.'
  - id: descriptor_version
    type: u2
    -label: 'DescriptorVersion'
    doc: '2 or 3.'
  - id: tag_checksum
    type: u1
    -unit: hex
    -label: 'TagChecksum'
    doc: 'Sum of the other 15 bytes of the tag.'
  - id: reserved
    type: u1
    -label: 'Reserved'
    doc: 'Reserved.'
  - id: tag_serial_number
    type: u2
    -label: 'TagSerialNumber'
    doc: 'Serial number.'
  - id: descriptor_crc
    type: u2
    -unit: hex
    -label: 'DescriptorCRC'
    doc: 'CRC of the bytes after the tag.'
  - id: descriptor_crc_length
    type: u2
    -label: 'DescriptorCRCLength'
    doc: 'Bytes that the CRC covers.'
  - id: tag_location
    type: u4
    -label: 'TagLocation'
    doc: 'Sector of this descriptor.'
  - id: main_length
    type: u4
    -unit: bytes
    -label: 'MainVolumeDescriptorSequenceExtent'
    doc: 'Bytes of the main sequence.'
  - id: main_location
    type: u4
    -label: 'MainVolumeDescriptorSequenceExtent'
    doc: 'First sector of the main sequence.'
  - id: reserve_length
    type: u4
    -unit: bytes
    -label: 'ReserveVolumeDescriptorSequenceExtent'
    doc: 'Bytes of the reserve sequence.'
  - id: reserve_location
    type: u4
    -label: 'ReserveVolumeDescriptorSequenceExtent'
    doc: 'First sector of the reserve sequence.'
  - id: rest
    size-eos: true
    -label: 'Reserved'
    doc: 'Reserved.'
