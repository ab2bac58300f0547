meta:
  id: ldm_privhead
  title: LDM private header
  endian: be
  -kinds: [partition map]
doc: Private header of a dynamic disk. It says where the data area and the database lie; a first copy stands in sector 6 of MBR disks, two more in the last 1 MiB.
doc-ref: Linux kernel, block/partitions/ldm.c and ldm.h
seq:
  - id: magic
    contents: "PRIVHEAD"
    -label: magic
    -unit: ascii
    doc: Marks the header.
  - id: checksum
    type: u4
    -label: checksum
    -unit: hex
    doc: Checksum; its rule is known from memory only.
  - id: version_major
    type: u2
    -label: version, major
    -unit: dec
    doc: 2.
  - id: version_minor
    type: u2
    -label: version, minor
    -unit: dec
    doc: 11 or 12.
  - id: unknown_1
    size: 32
    -label: not known
    -unit: hex
    doc: Not known.
  - id: disk_guid
    size: 64
    -label: disk id
    -unit: ascii
    doc: Identity of the disk as text.
  - id: host_guid
    size: 64
    -label: host id
    -unit: ascii
    doc: Identity of the computer as text.
  - id: group_guid
    size: 64
    -label: disk group id
    -unit: ascii
    doc: Identity of the disk group as text.
  - id: unknown_2
    size: 43
    -label: not known
    -unit: hex
    doc: Name of the group and further bytes.
  - id: logical_disk_start
    type: u8
    -label: logical_disk_start
    -unit: lba
    doc: First sector of the data area.
    -link: lba
  - id: logical_disk_size
    type: u8
    -label: logical_disk_size
    -unit: sectors
    doc: Sectors of the data area.
  - id: config_start
    type: u8
    -label: config_start
    -unit: lba
    doc: First sector of the database.
    -link: lba
  - id: config_size
    type: u8
    -label: config_size
    -unit: sectors
    doc: Sectors of the database; 2048 usual.
  - id: rest
    size-eos: true
    -label: not known
    -unit: hex
    doc: Rest of the sector.
