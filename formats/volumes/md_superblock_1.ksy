meta:
  id: md_superblock_1
  title: 'md superblock 1.x'
  endian: le
  -kinds: [superblock]
doc: 'Superblock of a member of a Linux software RAID set, versions 1.0 to 1.2.'
doc-ref: 'libblkid superblock prober for linux_raid (util-linux)'
seq:
  - id: magic
    type: u4
    -unit: hex
    valid: 0xA92B4EFC
    -label: 'magic'
    doc: 'A92B4EFC.'
  - id: major_version
    type: u4
    -label: 'major_version'
    doc: '1.'
  - id: feature_map
    type: u4
    -unit: hex
    -label: 'feature_map'
    doc: 'Features.'
  - id: pad0
    type: u4
    -label: 'pad0'
    doc: 'Padding.'
  - id: set_uuid
    size: 16
    -unit: uuid
    -label: 'set_uuid'
    doc: 'Identity of the set.'
  - id: set_name
    type: strz
    size: 32
    encoding: UTF-8
    -label: 'set_name'
    doc: 'Name of the set.'
  - id: ctime
    type: u8
    -label: 'ctime'
    doc: 'Time of making; seconds in the low 40 bits.'
  - id: level
    type: s4
    enum: level
    -label: 'level'
    doc: 'RAID level.'
  - id: layout
    type: u4
    -unit: hex
    -label: 'layout'
    doc: 'Layout of stripes.'
  - id: size
    type: u8
    -unit: sectors512
    -label: 'size'
    doc: 'Sectors used of each member.'
  - id: chunksize
    type: u4
    -unit: sectors512
    -label: 'chunksize'
    doc: 'Sectors of a chunk.'
  - id: raid_disks
    type: u4
    -label: 'raid_disks'
    doc: 'Number of members.'
  - id: bitmap_offset
    type: s4
    -unit: signed
    -label: 'bitmap_offset'
    doc: 'Sectors from the superblock to the bitmap.'
  - id: new_level
    type: s4
    -unit: signed
    -label: 'new_level'
    doc: 'Level after a change.'
  - id: reshape_position
    type: u8
    -label: 'reshape_position'
    doc: 'How far a change came.'
  - id: delta_disks
    type: s4
    -unit: signed
    -label: 'delta_disks'
    doc: 'Change of the number of members.'
  - id: new_layout
    type: u4
    -unit: hex
    -label: 'new_layout'
    doc: 'Layout after a change.'
  - id: new_chunk
    type: u4
    -label: 'new_chunk'
    doc: 'Chunk after a change.'
  - id: new_offset
    type: u4
    -label: 'new_offset'
    doc: 'Change of the data offset.'
  - id: data_offset
    type: u8
    -link: sector
    -label: 'data_offset'
    doc: 'First sector of the data.'
  - id: data_size
    type: u8
    -unit: sectors512
    -label: 'data_size'
    doc: 'Sectors of the data.'
  - id: super_offset
    type: u8
    -link: sector
    -label: 'super_offset'
    doc: 'Sector of this superblock.'
  - id: recovery_offset
    type: u8
    -label: 'recovery_offset'
    doc: 'How far recovery came.'
  - id: dev_number
    type: u4
    -label: 'dev_number'
    doc: 'Number of this member.'
  - id: cnt_corrected_read
    type: u4
    -label: 'cnt_corrected_read'
    doc: 'Read errors corrected.'
  - id: device_uuid
    size: 16
    -unit: uuid
    -label: 'device_uuid'
    doc: 'Identity of this member.'
  - id: devflags
    type: u1
    -unit: hex
    -label: 'devflags'
    doc: 'Flags of this member.'
  - id: bblog_shift
    type: u1
    -label: 'bblog_shift'
    doc: 'Logarithm of the unit of the bad block list.'
  - id: bblog_size
    type: u2
    -label: 'bblog_size'
    doc: 'Sectors of the bad block list.'
  - id: bblog_offset
    type: u4
    -label: 'bblog_offset'
    doc: 'Sectors from the superblock to the bad block list.'
  - id: utime
    type: u8
    -label: 'utime'
    doc: 'Time of the last change; seconds in the low 40 bits.'
  - id: events
    type: u8
    -label: 'events'
    doc: 'Counter of changes; equal in all members of a clean set.'
  - id: resync_offset
    type: u8
    -label: 'resync_offset'
    doc: 'How far resynchronising came.'
  - id: sb_csum
    type: u4
    -unit: hex
    -label: 'sb_csum'
    doc: 'Sum of all words with this field zero.'
  - id: max_dev
    type: u4
    valid: {max: 1920}
    -label: 'max_dev'
    doc: 'Number of roles that follow.'
  - id: pad3
    size: 32
    -label: 'pad3'
    doc: 'Padding.'
  - id: dev_roles
    type: u2
    repeat: expr
    repeat-expr: max_dev
    -unit: hex
    -label: 'dev_roles'
    doc: 'Role of each member: FFFF spare, FFFE faulty.'
enums:
  level:
    -4:
      id: multipath
      -label: 'Multipath'
    -1:
      id: linear
      -label: 'Linear'
    0:
      id: stripes
      -label: 'Stripes'
    1:
      id: mirror
      -label: 'Mirror'
    4:
      id: parity_on_one_disk
      -label: 'Parity on one disk'
    5:
      id: distributed_parity
      -label: 'Distributed parity'
    6:
      id: double_parity
      -label: 'Double parity'
    10:
      id: mirrored_stripes
      -label: 'Mirrored stripes'
