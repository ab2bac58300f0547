meta:
  id: exfat_boot_checksum
  title: exFAT boot checksum sector
  endian: le
  -kinds: [boot sector]
doc: >-
  Repeats the 32-bit checksum of the eleven sectors before it. All repeats must be equal.
doc-ref: Microsoft exFAT file system specification, revision 1.00, section 3.4
seq:
  - id: checksums
    type: u4
    repeat: eos
    -label: BootChecksum
    -unit: hex
    doc: Checksum over sectors 0 to 10 of the region, bytes 106, 107 and 112 of the first left out.
