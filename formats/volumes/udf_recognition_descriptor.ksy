meta:
  id: udf_recognition_descriptor
  title: 'UDF volume structure descriptor'
  endian: le
  -kinds: [recognition]
doc: 'One descriptor of the recognition sequence from byte 32768.'
doc-ref: 'ECMA-167, 2/9.1'
seq:
  - id: structure_type
    type: u1
    -label: 'StructureType'
    doc: '0.'
  - id: standard_identifier
    type: strz
    size: 5
    encoding: ASCII
    -label: 'StandardIdentifier'
    doc: 'BEA01, NSR02, NSR03, TEA01, BOOT2 or CD001.'
  - id: structure_version
    type: u1
    -label: 'StructureVersion'
    doc: '1.'
  - id: structure_data
    size-eos: true
    -label: 'StructureData'
    doc: 'Zero for most.'
