meta:
  id: lvm2_label
  title: 'LVM2 label'
  endian: le
  -kinds: [label]
doc: 'Label and physical volume header in one of the first four sectors.'
doc-ref: 'LVM2 text format layout header'
seq:
  - id: id
    type: strz
    size: 8
    encoding: ASCII
    -label: 'id'
    doc: '"LABELONE".'
  - id: sector_xl
    type: u8
    -label: 'sector_xl'
    doc: 'Sector of 512 bytes that holds the label.'
  - id: crc_xl
    type: u4
    -unit: hex
    -label: 'crc_xl'
    doc: 'CRC of the bytes from 20 to the end of the sector.'
  - id: offset_xl
    type: u4
    -label: 'offset_xl'
    doc: 'Byte of the header of the physical volume.'
  - id: type_indicator
    type: strz
    size: 8
    encoding: ASCII
    -label: 'type'
    doc: '"LVM2 001".'
  - id: pv_uuid
    type: strz
    size: 32
    encoding: ASCII
    -label: 'pv_uuid'
    doc: 'Identity of the physical volume.'
  - id: device_size_xl
    type: u8
    -unit: bytes
    -label: 'device_size_xl'
    doc: 'Bytes of the device.'
  - id: data_areas
    type: area
    repeat: until
    repeat-until: '_.offset == 0 and _.size == 0'
    -label: 'disk_areas_xl'
    doc: 'Data areas, ended by a zero pair.'
  - id: metadata_areas
    type: area
    repeat: until
    repeat-until: '_.offset == 0 and _.size == 0'
    -label: 'disk_areas_xl'
    doc: 'Metadata areas, ended by a zero pair.'
  - id: extension_version
    type: u4
    -label: 'version'
    doc: 'Version of the extension.'
  - id: extension_flags
    type: u4
    -unit: hex
    -label: 'flags'
    doc: '1: in use by a volume group.'
  - id: bootloader_areas
    type: area
    repeat: until
    repeat-until: '_.offset == 0 and _.size == 0'
    -label: 'bootloader_areas_xl'
    doc: 'Areas for boot loaders, ended by a zero pair.'
  - id: rest
    size-eos: true
    doc: 'Rest of the sector.'
types:
  area:
    doc: 'A range of the device.'
    seq:
      - id: offset
        type: u8
        -link: byte
        -label: 'offset'
        doc: 'First byte.'
      - id: size
        type: u8
        -unit: bytes
        -label: 'size'
        doc: 'Bytes; 0 is up to the end.'
