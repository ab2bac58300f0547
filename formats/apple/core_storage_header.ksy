meta:
  id: core_storage_header
  title: 'Core Storage volume header'
  endian: le
  -kinds: [superblock]
doc: 'The first sector of a physical volume of Core Storage, the container of FileVault 2.'
doc-ref: 'libblkid superblock prober for cs_fvault2 (util-linux), from memory'
seq:
  - id: checksum
    type: u4
    -unit: hex
    -label: 'checksum'
    doc: 'CRC-32C of the bytes from 8, started from the seed.'
  - id: checksum_seed
    type: u4
    -unit: hex
    -label: 'checksum seed'
    doc: 'Start value of the checksum.'
  - id: version
    type: u2
    -label: 'version'
    doc: '1.'
  - id: block_type
    type: u2
    -unit: hex
    -label: 'block type'
    doc: '16.'
  - id: reserved1
    size: 52
    doc: 'Not explained.'
  - id: physical_volume_size
    type: u8
    -unit: bytes
    -label: 'physical volume size'
    doc: 'Bytes of the physical volume.'
  - id: reserved2
    size: 16
    doc: 'Not explained.'
  - id: magic
    type: strz
    size: 2
    encoding: ASCII
    -label: 'magic'
    doc: '"CS".'
  - id: checksum_algorithm
    type: u4
    -label: 'checksum algorithm'
    doc: '1 is CRC-32C.'
  - id: reserved3
    size: 2
    doc: 'Not explained.'
  - id: block_size
    type: u4
    -unit: bytes
    -label: 'block size'
    doc: 'Bytes per block.'
  - id: metadata_size
    type: u4
    -unit: bytes
    -label: 'metadata size'
    doc: 'Bytes of a metadata block.'
  - id: disk_label_block
    type: u8
    -label: 'disk label block'
    doc: 'Block of the disk label.'
  - id: metadata_blocks
    type: u8
    repeat: expr
    repeat-expr: 3
    -label: 'metadata blocks'
    doc: 'Blocks of the other metadata copies.'
  - id: reserved4
    size: 32
    doc: 'Not explained.'
  - id: key_data_size
    type: u4
    -label: 'key data size'
    doc: 'Bytes of the key data: 16.'
  - id: cipher
    type: u4
    -label: 'cipher'
    doc: '2 is AES-XTS.'
  - id: key_data
    size: 16
    -label: 'key data'
    doc: 'Key of the metadata.'
  - id: reserved5
    size: 112
    doc: 'Not explained.'
  - id: physical_volume_uuid
    size: 16
    -unit: uuid
    -label: 'physical volume UUID'
    doc: 'Identity of the physical volume.'
