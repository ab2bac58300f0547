meta:
  id: luks2_header
  title: 'LUKS2 binary header'
  endian: be
  -kinds: [superblock]
doc: 'Binary header of a LUKS volume, version 2; JSON follows 4096 bytes after its start.'
doc-ref: 'libblkid superblock prober for LUKS (util-linux)'
seq:
  - id: magic
    size: 6
    -label: 'magic'
    doc: '"LUKS" BA BE in the first, "SKUL" BA BE in the second copy.'
  - id: version
    type: u2
    -label: 'version'
    doc: '2.'
  - id: hdr_size
    type: u8
    -unit: bytes
    -label: 'hdr_size'
    doc: 'Bytes of header and JSON: 16384 to 4194304.'
  - id: seqid
    type: u8
    -label: 'seqid'
    doc: 'The higher is the newer.'
  - id: label
    type: strz
    size: 48
    encoding: UTF-8
    -label: 'label'
    doc: 'Label.'
  - id: checksum_alg
    type: strz
    size: 32
    encoding: ASCII
    -label: 'checksum_alg'
    doc: 'Kind of the checksum.'
  - id: salt
    size: 64
    -label: 'salt'
    doc: 'Salt; differs from copy to copy.'
  - id: uuid
    type: strz
    size: 40
    encoding: ASCII
    -label: 'uuid'
    doc: 'Identity as text.'
  - id: subsystem
    type: strz
    size: 48
    encoding: UTF-8
    -label: 'subsystem'
    doc: 'Who uses the volume.'
  - id: hdr_offset
    type: u8
    -link: byte
    -label: 'hdr_offset'
    doc: 'Byte of this copy.'
  - id: padding
    size: 184
    -label: 'padding'
    doc: 'Padding.'
  - id: csum
    size: 64
    -label: 'csum'
    doc: 'Checksum of header and JSON with this field zero.'
  - id: padding4096
    size: 3584
    -label: 'padding4096'
    doc: 'Padding.'
  - id: json
    size-eos: true
    -label: 'json'
    doc: 'Key slots, segments, digests as JSON text.'
