meta:
  id: bitlocker_boot_record
  title: 'BitLocker boot record'
  endian: le
  -kinds: [boot-sector]
doc: 'First sector of a locked volume; only what recognition needs.'
doc-ref: 'cryptsetup, lib/bitlk; libblkid superblock prober for BitLocker (util-linux)'
seq:
  - id: jump
    size: 3
    -label: 'jump'
    doc: 'Jump to the boot code.'
  - id: signature
    type: strz
    size: 8
    encoding: ASCII
    -label: 'signature'
    doc: '"-FVE-FS-".'
  - id: boot_fields
    size: 149
    doc: 'Fields of an ordinary boot sector.'
  - id: guid
    size: 16
    -unit: guid
    -label: 'guid'
    doc: 'Identity of the format, not of the volume.'
  - id: fve_offset
    type: u8
    repeat: expr
    repeat-expr: 3
    -link: byte
    -format: bitlocker_metadata
    -label: 'fve_offset'
    doc: 'Bytes of the three metadata blocks.'
  - id: rest
    size: 310
    doc: 'Boot code and messages.'
  - id: end_marker
    type: u2
    -unit: hex
    -label: 'end marker'
    doc: 'AA55.'
