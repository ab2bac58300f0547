meta:
  id: ata_smart_thresholds
  title: SMART thresholds
  endian: le
  -kinds: [drive data]
doc: The limits that belong to the attributes of the SMART data, in the same order.
doc-ref: Published drive manuals, SMART READ THRESHOLDS
seq:
  - id: revision
    type: u2
    -label: revision
    -unit: hex
    doc: Version of the layout.
  - id: thresholds
    type: threshold
    repeat: expr
    repeat-expr: 30
    -label: thresholds
    doc: Thirty slots in the order of the attributes.
  - id: reserved
    size: 18
    -label: reserved
    -unit: hex
    doc: Zeros.
  - id: vendor
    size: 131
    -label: vendor specific
    -unit: hex
    doc: The maker's own.
  - id: checksum
    type: u1
    -label: checksum
    -unit: hex
    doc: Makes the sum of all 512 bytes zero.
types:
  threshold:
    seq:
      - id: id
        type: u1
        -label: id
        -unit: dec
        -values: {0x00: "empty slot", 0x01: "read error rate", 0x03: "spin-up time", 0x04: "start and stop count", 0x05: "reallocated sectors", 0x07: "seek error rate", 0x09: "power-on hours", 0x0a: "spin retries", 0x0c: "power cycles", 0xbb: "reported uncorrectable errors", 0xbc: "command timeouts", 0xc2: "temperature", 0xc4: "reallocation events", 0xc5: "sectors waiting for reallocation", 0xc6: "uncorrectable in offline scan", 0xc7: "interface CRC errors", 0xc8: "write error rate"}
        doc: The attribute that the limit belongs to.
      - id: threshold
        type: u1
        -label: threshold
        -unit: dec
        -values: {0: "always passes", 0xfe: "not legal", 0xff: "always fails"}
        doc: The attribute fails where its value is not above this one.
      - id: reserved
        size: 10
        -label: reserved
        -unit: hex
        doc: Zeros.
