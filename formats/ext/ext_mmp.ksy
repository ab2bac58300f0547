meta:
  id: ext_mmp
  title: 'ext block against mounting twice'
  endian: le
  -kinds: [mmp]
doc: 'Says which machine has the volume mounted.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, multiple mount protection'
seq:
  - id: mmp_magic
    type: u4
    valid: 0x004D4D50
    -unit: hex
    -label: 'mmp_magic'
    doc: '004D4D50.'
  - id: mmp_seq
    type: u4
    -unit: hex
    -label: 'mmp_seq'
    doc: 'Counts while mounted; FF4D4D50 is closed cleanly, E24D4D50 being checked.'
  - id: mmp_time
    type: u8
    -label: 'mmp_time'
    doc: 'Time of the last change, seconds since 1970.'
  - id: mmp_nodename
    type: strz
    size: 64
    encoding: UTF-8
    -label: 'mmp_nodename'
    doc: 'Name of the machine.'
  - id: mmp_bdevname
    type: strz
    size: 32
    encoding: UTF-8
    -label: 'mmp_bdevname'
    doc: 'Name of the device on that machine.'
  - id: mmp_check_interval
    type: u2
    -label: 'mmp_check_interval'
    doc: 'Seconds between two looks.'
  - id: mmp_pad1
    size: 2
    -label: 'mmp_pad1'
    doc: 'Padding.'
  - id: mmp_pad2
    size: 904
    -label: 'mmp_pad2'
    doc: 'Padding.'
  - id: mmp_checksum
    type: u4
    -unit: hex
    -label: 'mmp_checksum'
    doc: 'CRC-32C of the bytes before, from the seed of the volume.'
