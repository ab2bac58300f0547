meta:
  id: exfat_extended_boot_sector
  title: exFAT extended boot sector
  endian: le
  -kinds: [boot sector]
doc: >-
  One of the eight sectors after the boot sector, with further boot code.
doc-ref: Microsoft exFAT file system specification, revision 1.00, section 3.2
params:
  - id: sector_size
    type: u8
    doc: Bytes per sector of the volume.
seq:
  - id: boot_code
    size: sector_size - 4
    -label: ExtendedBootCode
    doc: Boot code; 00 where there is none.
  - id: signature
    size: 4
    -label: ExtendedBootSignature
    -unit: hex
    doc: 00 00 55 AA in the last bytes of the sector.
    valid: "[0x00, 0x00, 0x55, 0xaa]"
