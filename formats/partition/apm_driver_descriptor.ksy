meta:
  id: apm_driver_descriptor
  title: Apple driver descriptor record
  endian: be
  -kinds: [partition map]
doc: Block 0 of a disk with an Apple partition map.
doc-ref: "Inside Macintosh: Devices, chapter 3, Driver Descriptor Record"
seq:
  - id: signature
    contents: "ER"
    -label: sbSig
    -unit: ascii
    doc: Marks the record.
  - id: block_size
    type: u2
    -label: sbBlkSize
    -unit: bytes
    doc: Bytes per block; all addresses of the map count blocks. 512 usual, 2048 on optical media.
  - id: block_count
    type: u4
    -label: sbBlkCount
    -unit: sectors
    doc: Blocks of the disk.
  - id: device_type
    type: u2
    -label: sbDevType
    -unit: hex
    doc: Reserved.
  - id: device_id
    type: u2
    -label: sbDevId
    -unit: hex
    doc: Reserved.
  - id: data
    type: u4
    -label: sbData
    -unit: hex
    doc: Reserved.
  - id: driver_count
    type: u2
    -label: sbDrvrCount
    -unit: dec
    doc: Drivers listed below.
  - id: drivers
    type: driver
    repeat: expr
    repeat-expr: "driver_count < 61 ? driver_count : 61"
    -label: drivers
    doc: Where the drivers lie.
  - id: rest
    size-eos: true
    -label: reserved
    -unit: hex
    doc: Not used.
types:
  driver:
    seq:
      - id: first_block
        type: u4
        -label: ddBlock
        -unit: lba
        doc: First block of the driver.
      - id: size
        type: u2
        -label: ddSize
        -unit: sectors
        doc: Size of the driver in blocks of 512 bytes.
      - id: system
        type: u2
        -label: ddType
        -unit: dec
        -values: {1: "Mac OS"}
        doc: Operating system that the driver is for.
