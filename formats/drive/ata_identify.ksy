meta:
  id: ata_identify
  title: ATA IDENTIFY DEVICE data
  endian: le
  -kinds: [drive data]
doc: What an ATA drive says of itself, 256 words of 16 bits. Word w stands at byte 2w.
doc-ref: T13/2132-D (ATA command set), IDENTIFY DEVICE; Linux kernel, include/linux/ata.h
seq:
  - id: configuration
    type: u2
    -label: "general configuration (word 0)"
    -unit: flags
    -flags: {0x8000: "not an ATA device", 0x80: "removable medium", 0x4: "response incomplete", 0x40: "fixed device (obsolete)"}
    doc: "Kind of device; bit 15 is clear for ATA."
  - id: cylinders
    type: u2
    -label: "cylinders (word 1, obsolete)"
    -unit: dec
    doc: "Logical cylinders; 16383 on large drives."
  - id: other_1
    size: 2
    -label: word 2
    -unit: hex
    doc: A word that is not explained here.
  - id: heads
    type: u2
    -label: "heads (word 3, obsolete)"
    -unit: dec
    doc: "Logical heads."
  - id: other_2
    size: 4
    -label: words 4 to 5
    -unit: hex
    doc: Words that are not explained here.
  - id: sectors_per_track
    type: u2
    -label: "sectors per track (word 6, obsolete)"
    -unit: dec
    doc: "Logical sectors per track."
  - id: other_3
    size: 6
    -label: words 7 to 9
    -unit: hex
    doc: Words that are not explained here.
  - id: serial_number
    size: 20
    -label: "serial number (words 10-19)"
    -unit: ascii-words
    doc: "Serial number, padded with spaces."
  - id: other_4
    size: 6
    -label: words 20 to 22
    -unit: hex
    doc: Words that are not explained here.
  - id: firmware_revision
    size: 8
    -label: "firmware revision (words 23-26)"
    -unit: ascii-words
    doc: "Version of the firmware."
  - id: model_number
    size: 40
    -label: "model number (words 27-46)"
    -unit: ascii-words
    doc: "Model, padded with spaces."
  - id: other_5
    size: 4
    -label: words 47 to 48
    -unit: hex
    doc: Words that are not explained here.
  - id: capabilities
    type: u2
    -label: "capabilities (word 49)"
    -unit: flags
    -flags: {0x200: "LBA", 0x100: "DMA"}
    doc: "What the drive can do."
  - id: other_6
    size: 6
    -label: words 50 to 52
    -unit: hex
    doc: Words that are not explained here.
  - id: validity
    type: u2
    -label: "field validity (word 53)"
    -unit: flags
    -flags: {0x1: "words 54 to 58", 0x2: "words 64 to 70", 0x4: "word 88"}
    doc: "Which other words are valid."
  - id: other_7
    size: 12
    -label: words 54 to 59
    -unit: hex
    doc: Words that are not explained here.
  - id: sectors_28
    type: u4
    -label: "sectors, 28 bits (words 60-61)"
    -unit: sectors512
    doc: "Sectors that commands with 28-bit addresses reach; 268435455 where there are more. Size at 512 bytes per sector."
  - id: other_8
    size: 28
    -label: words 62 to 75
    -unit: hex
    doc: Words that are not explained here.
  - id: sata_capabilities
    type: u2
    -label: "Serial ATA capabilities (word 76)"
    -unit: flags
    -flags: {0x2: "1.5 Gb/s", 0x4: "3 Gb/s", 0x8: "6 Gb/s", 0x100: "native command queueing"}
    doc: "0 or FFFF: not Serial ATA."
  - id: sata_further
    type: u2
    -label: "Serial ATA, further (word 77)"
    -unit: hex
    doc: "Bits 3 to 1: current speed."
  - id: other_9
    size: 4
    -label: words 78 to 79
    -unit: hex
    doc: Words that are not explained here.
  - id: major_version
    type: u2
    -label: "major version (word 80)"
    -unit: flags
    -flags: {0x10: "ATA/ATAPI-4", 0x20: "ATA/ATAPI-5", 0x40: "ATA/ATAPI-6", 0x80: "ATA/ATAPI-7", 0x100: "ATA8-ACS", 0x200: "ACS-2", 0x400: "ACS-3", 0x800: "ACS-4"}
    doc: "Highest bit set is the highest version supported."
  - id: other_10
    size: 2
    -label: word 81
    -unit: hex
    doc: A word that is not explained here.
  - id: commands_1
    type: u2
    -label: "command sets supported (word 82)"
    -unit: flags
    -flags: {0x1: "SMART", 0x2: "security", 0x400: "host protected area"}
    doc: "Features that the drive knows."
  - id: commands_2
    type: u2
    -label: "command sets supported (word 83)"
    -unit: flags
    -flags: {0x400: "48-bit addresses", 0x4000: "bit 14: word is valid"}
    doc: "Valid where bits 15 and 14 are 01."
  - id: other_11
    size: 2
    -label: word 84
    -unit: hex
    doc: A word that is not explained here.
  - id: enabled_1
    type: u2
    -label: "command sets enabled (word 85)"
    -unit: flags
    -flags: {0x1: "SMART", 0x2: "security", 0x400: "host protected area"}
    doc: "Features that are on; valid where bits 15 and 14 of word 87 are 01."
  - id: other_12
    size: 2
    -label: word 86
    -unit: hex
    doc: A word that is not explained here.
  - id: enabled_3
    type: u2
    -label: "command sets enabled (word 87)"
    -unit: flags
    -flags: {0x4000: "bit 14: words 85 to 87 are valid"}
    doc: "Says whether words 85 to 87 are valid."
  - id: other_13
    size: 24
    -label: words 88 to 99
    -unit: hex
    doc: Words that are not explained here.
  - id: sectors_48
    type: u8
    -label: "sectors, 48 bits (words 100-103)"
    -unit: sectors512
    doc: "Sectors of the drive, where word 83 says that it knows 48-bit addresses. Size at 512 bytes per sector."
  - id: other_14
    size: 4
    -label: words 104 to 105
    -unit: hex
    doc: Words that are not explained here.
  - id: sector_sizes
    type: u2
    -label: "sector sizes (word 106)"
    -unit: flags
    -flags: {0x4000: "bit 14: word is valid", 0x2000: "several logical sectors per physical sector", 0x1000: "logical sector larger than 512 bytes", 0x1: "exponent bit 0", 0x2: "exponent bit 1", 0x4: "exponent bit 2", 0x8: "exponent bit 3"}
    doc: "Valid where bits 15 and 14 are 01. Bits 3 to 0: the exponent of logical sectors per physical sector."
  - id: other_15
    size: 2
    -label: word 107
    -unit: hex
    doc: A word that is not explained here.
  - id: world_wide_name
    size: 8
    -label: "world wide name (words 108-111)"
    -unit: hex
    doc: "Identity of the drive, most significant word first; the bytes of each word are swapped."
  - id: other_16
    size: 10
    -label: words 112 to 116
    -unit: hex
    doc: Words that are not explained here.
  - id: logical_sector_words
    type: u4
    -label: "words per logical sector (words 117-118)"
    -unit: dec
    doc: "Valid where bit 12 of word 106 is set; 2048 means 4096 bytes."
  - id: other_17
    size: 18
    -label: words 119 to 127
    -unit: hex
    doc: Words that are not explained here.
  - id: security
    type: u2
    -label: "security status (word 128)"
    -unit: flags
    -flags: {0x1: "supported", 0x2: "enabled", 0x4: "locked", 0x8: "frozen", 0x10: "count expired", 0x20: "enhanced erase supported", 0x100: "level maximum"}
    doc: "State of the password lock."
  - id: other_18
    size: 78
    -label: words 129 to 167
    -unit: hex
    doc: Words that are not explained here.
  - id: form_factor
    type: u2
    -label: "form factor (word 168)"
    -unit: hex
    -values: {0: "not reported", 1: "5.25 inch", 2: "3.5 inch", 3: "2.5 inch", 4: "1.8 inch", 5: "less than 1.8 inch"}
    doc: "Low four bits; codes from memory."
  - id: other_19
    size: 80
    -label: words 169 to 208
    -unit: hex
    doc: Words that are not explained here.
  - id: alignment
    type: u2
    -label: "alignment of logical sectors (word 209)"
    -unit: hex
    doc: "Bits 13 to 0: offset of logical sector 0 in its physical sector, where bits 15 and 14 are 01."
  - id: other_20
    size: 14
    -label: words 210 to 216
    -unit: hex
    doc: Words that are not explained here.
  - id: rotation_rate
    type: u2
    -label: "rotation rate (word 217)"
    -unit: dec
    -values: {0: "not reported", 1: "does not rotate", 0xffff: "not reported"}
    doc: "Rotations per minute."
  - id: other_21
    size: 8
    -label: words 218 to 221
    -unit: hex
    doc: Words that are not explained here.
  - id: transport_version
    type: u2
    -label: "transport version (word 222)"
    -unit: hex
    doc: "Bits 15 to 12: 0 parallel, 1 serial (from memory)."
  - id: other_22
    size: 64
    -label: words 223 to 254
    -unit: hex
    doc: Words that are not explained here.
  - id: integrity_mark
    type: u1
    -label: "checksum indicator (word 255, low byte)"
    -unit: hex
    -values: {0xa5: "a checksum follows"}
    doc: "A5 where the next byte is a checksum."
  - id: checksum
    type: u1
    -label: "checksum (word 255, high byte)"
    -unit: hex
    doc: Makes the sum of all 512 bytes zero, where the byte before is A5.
