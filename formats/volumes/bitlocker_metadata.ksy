meta:
  id: bitlocker_metadata
  title: 'BitLocker metadata block'
  endian: le
  -kinds: [metadata]
doc: 'Header of one of the three metadata blocks.'
doc-ref: 'cryptsetup, lib/bitlk; libblkid superblock prober for BitLocker (util-linux)'
seq:
  - id: signature
    type: strz
    size: 8
    encoding: ASCII
    -label: 'signature'
    doc: '"-FVE-FS-".'
  - id: size
    type: u2
    -label: 'size'
    doc: 'Size.'
  - id: version
    type: u2
    -label: 'version'
    doc: '1 is the first version, 2 later ones.'
  - id: reserved1
    type: u4
    doc: 'Not explained.'
  - id: encrypted_volume_size
    type: u8
    -unit: bytes
    -label: 'volume size'
    doc: 'Bytes of the encrypted volume.'
  - id: reserved2
    type: u4
    doc: 'Not explained.'
  - id: volume_header_size
    type: u4
    -label: 'header size'
    doc: 'Sectors of the moved boot area (from memory).'
  - id: fve_offset
    type: u8
    repeat: expr
    repeat-expr: 3
    -link: byte
    -format: bitlocker_metadata
    -label: 'fve_offset'
    doc: 'Bytes of the three metadata blocks.'
  - id: boot_offset
    type: u8
    -link: byte
    -label: 'moved boot area'
    doc: 'Byte of the moved boot area.'
  - id: metadata_size
    type: u4
    -label: 'metadata size'
    doc: 'Bytes of the metadata.'
  - id: metadata_version
    type: u4
    -label: 'metadata version'
    doc: '1.'
  - id: metadata_header_size
    type: u4
    -label: 'metadata header size'
    doc: '48.'
  - id: metadata_size_copy
    type: u4
    -label: 'metadata size copy'
    doc: 'The size once more.'
  - id: volume_guid
    size: 16
    -unit: guid
    -label: 'volume GUID'
    doc: 'Identity of the volume.'
  - id: next_nonce
    type: u4
    -label: 'nonce counter'
    doc: 'Counter of nonces.'
  - id: encryption
    type: u2
    enum: method
    -label: 'encryption method'
    doc: 'Method.'
  - id: encryption_copy
    type: u2
    -unit: hex
    -label: 'encryption method'
    doc: 'Method once more.'
  - id: creation_time
    type: u8
    -unit: filetime
    -label: 'creation time'
    doc: 'Time of making.'
enums:
  method:
    0x8000:
      id: aes_cbc_128_with_diffuser
      -label: 'AES-CBC 128 with diffuser'
    0x8001:
      id: aes_cbc_256_with_diffuser
      -label: 'AES-CBC 256 with diffuser'
    0x8002:
      id: aes_cbc_128
      -label: 'AES-CBC 128'
    0x8003:
      id: aes_cbc_256
      -label: 'AES-CBC 256'
    0x8004:
      id: aes_xts_128
      -label: 'AES-XTS 128'
    0x8005:
      id: aes_xts_256
      -label: 'AES-XTS 256'
