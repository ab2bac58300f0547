meta:
  id: ata_smart_data
  title: SMART data
  endian: le
  -kinds: [drive data]
doc: Health counters of an ATA drive. Layout and meaning are the maker's own by standard, the same in practice.
doc-ref: Published drive manuals, SMART READ DATA; offsets from 362 on as in ATA/ATAPI-5 and later
seq:
  - id: revision
    type: u2
    -label: revision
    -unit: hex
    doc: Version of the layout; 0010 is common.
  - id: attributes
    type: attribute
    repeat: expr
    repeat-expr: 30
    -label: attributes
    doc: Thirty slots; an id of 0 marks an empty one.
  - id: offline_status
    type: u1
    -label: off-line collection status
    -unit: hex
    doc: State of the collection of data in the background.
  - id: self_test_status
    type: u1
    -label: self-test status
    -unit: hex
    doc: High half the result of the last self-test, low half what is left of it in tenths.
  - id: offline_seconds
    type: u2
    -label: off-line collection time
    -unit: dec
    doc: Seconds that the collection takes.
  - id: vendor_1
    type: u1
    -label: vendor specific
    -unit: hex
    doc: The maker's own.
  - id: offline_capability
    type: u1
    -label: off-line capability
    -unit: hex
    doc: What the collection can do.
  - id: smart_capability
    type: u2
    -label: SMART capability
    -unit: flags
    -flags: {0x1: "saves before power down", 0x2: "saves by itself"}
    doc: When the drive saves its counters.
  - id: error_log_capability
    type: u1
    -label: error log capability
    -unit: flags
    -flags: {0x1: "keeps an error log"}
    doc: Whether the drive keeps a log of errors.
  - id: vendor_2
    type: u1
    -label: vendor specific
    -unit: hex
    doc: The maker's own.
  - id: short_test_minutes
    type: u1
    -label: short self-test time
    -unit: dec
    doc: Minutes.
  - id: extended_test_minutes
    type: u1
    -label: extended self-test time
    -unit: dec
    doc: Minutes.
  - id: conveyance_test_minutes
    type: u1
    -label: conveyance self-test time
    -unit: dec
    doc: Minutes.
  - id: reserved
    size: 11
    -label: reserved
    -unit: hex
    doc: Reserved.
  - id: vendor_3
    size: 125
    -label: vendor specific
    -unit: hex
    doc: The maker's own.
  - id: checksum
    type: u1
    -label: checksum
    -unit: hex
    doc: Makes the sum of all 512 bytes zero.
types:
  attribute:
    seq:
      - id: id
        type: u1
        -label: id
        -unit: dec
        -values: {0x00: "empty slot", 0x01: "read error rate", 0x03: "spin-up time", 0x04: "start and stop count", 0x05: "reallocated sectors", 0x07: "seek error rate", 0x09: "power-on hours", 0x0a: "spin retries", 0x0c: "power cycles", 0xbb: "reported uncorrectable errors", 0xbc: "command timeouts", 0xc2: "temperature", 0xc4: "reallocation events", 0xc5: "sectors waiting for reallocation", 0xc6: "uncorrectable in offline scan", 0xc7: "interface CRC errors", 0xc8: "write error rate"}
        doc: What is counted; the meaning is the usual one.
      - id: flags
        type: u2
        -label: flags
        -unit: flags
        -flags: {0x1: "pre-failure", 0x2: "updated on-line", 0x4: "performance", 0x8: "error rate", 0x10: "event count", 0x20: "self-preserving"}
        doc: Kind of attribute.
      - id: value
        type: u1
        -label: value
        -unit: dec
        doc: Normalised value, 1 to 253; falls as things get worse.
      - id: worst
        type: u1
        -label: worst
        -unit: dec
        doc: Lowest value so far.
      - id: raw_low
        type: u4
        -label: raw value, low part
        -unit: dec
        doc: The maker's own count, bits 0 to 31.
      - id: raw_high
        type: u2
        -label: raw value, high part
        -unit: dec
        doc: The maker's own count, bits 32 to 47.
      - id: reserved
        type: u1
        -label: reserved
        -unit: hex
        doc: The maker's own.
    instances:
      raw_value:
        value: (raw_low + raw_high.as<u8> * 4294967296).as<u8>
        -label: raw value
        -unit: dec
        doc: The maker's own count, 48 bits.
