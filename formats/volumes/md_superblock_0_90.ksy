meta:
  id: md_superblock_0_90
  title: 'md superblock 0.90'
  endian: le
  -kinds: [superblock]
doc: 'Superblock of a member of a Linux software RAID set, version 0.90, little endian.'
doc-ref: 'libblkid superblock prober for linux_raid (util-linux)'
seq:
  - id: md_magic
    type: u4
    -unit: hex
    valid: 0xA92B4EFC
    -label: 'md_magic'
    doc: 'A92B4EFC.'
  - id: major_version
    type: u4
    -label: 'major_version'
    doc: '0.'
  - id: minor_version
    type: u4
    -label: 'minor_version'
    doc: '90.'
  - id: patch_version
    type: u4
    -label: 'patch_version'
    doc: 'Patch version.'
  - id: gvalid_words
    type: u4
    -label: 'gvalid_words'
    doc: 'Not used.'
  - id: set_uuid0
    type: u4
    -unit: hex
    -label: 'set_uuid0'
    doc: 'Identity of the set, first word.'
  - id: ctime
    type: u4
    -unit: unix
    -label: 'ctime'
    doc: 'Time of making.'
  - id: level
    type: s4
    -unit: signed
    -label: 'level'
    doc: 'RAID level.'
  - id: size
    type: u4
    -label: 'size'
    doc: 'KiB used of each member.'
  - id: nr_disks
    type: u4
    -label: 'nr_disks'
    doc: 'Disks of the set with spares.'
  - id: raid_disks
    type: u4
    -label: 'raid_disks'
    doc: 'Number of members.'
  - id: md_minor
    type: u4
    -label: 'md_minor'
    doc: 'Device number.'
  - id: not_persistent
    type: u4
    -label: 'not_persistent'
    doc: 'Whether it is not persistent.'
  - id: set_uuid1
    type: u4
    -unit: hex
    -label: 'set_uuid1'
    doc: 'Identity, second word.'
  - id: set_uuid2
    type: u4
    -unit: hex
    -label: 'set_uuid2'
    doc: 'Identity, third word.'
  - id: set_uuid3
    type: u4
    -unit: hex
    -label: 'set_uuid3'
    doc: 'Identity, fourth word.'
  - id: gstate_creserved
    size: 64
    -label: 'gstate_creserved'
    doc: 'Reserved.'
  - id: utime
    type: u4
    -unit: unix
    -label: 'utime'
    doc: 'Time of the last change.'
  - id: state
    type: u4
    -unit: flags
    -flags: {0x1: "clean", 0x2: "errors"}
    -label: 'state'
    doc: 'State.'
  - id: active_disks
    type: u4
    -label: 'active_disks'
    doc: 'Members in use.'
  - id: working_disks
    type: u4
    -label: 'working_disks'
    doc: 'Members that work.'
  - id: failed_disks
    type: u4
    -label: 'failed_disks'
    doc: 'Members that failed.'
  - id: spare_disks
    type: u4
    -label: 'spare_disks'
    doc: 'Spares.'
  - id: sb_csum
    type: u4
    -unit: hex
    -label: 'sb_csum'
    doc: 'Sum of all words with this field zero.'
  - id: events_lo
    type: u4
    -label: 'events_lo'
    doc: 'Counter of changes, low half.'
  - id: events_hi
    type: u4
    -label: 'events_hi'
    doc: 'Counter of changes, high half.'
  - id: rest
    size-eos: true
    doc: 'Further state, list of the disks, this disk.'
