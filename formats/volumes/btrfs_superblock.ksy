meta:
  id: btrfs_superblock
  title: 'Btrfs superblock'
  endian: le
  -kinds: [superblock]
doc: 'The superblock at 64 KiB and its copies at 64 MiB and 256 GiB.'
doc-ref: 'libblkid superblock prober for Btrfs (util-linux)'
seq:
  - id: csum
    size: 32
    -label: 'csum'
    doc: 'Checksum of the bytes after it; type 0 is CRC-32C in the first four bytes.'
  - id: fsid
    size: 16
    -unit: uuid
    -label: 'fsid'
    doc: 'Identity of the file system.'
  - id: bytenr
    type: u8
    -link: byte
    -label: 'bytenr'
    doc: 'Byte of this copy on the device.'
  - id: flags
    type: u8
    -unit: hex
    -label: 'flags'
    doc: 'Flags.'
  - id: magic
    type: strz
    size: 8
    encoding: ASCII
    -label: 'magic'
    doc: '"_BHRfS_M".'
  - id: generation
    type: u8
    -label: 'generation'
    doc: 'Transaction; the valid copy with the highest is the newest.'
  - id: root
    type: u8
    -unit: hex
    -label: 'root'
    doc: 'Tree of trees (logical address).'
  - id: chunk_root
    type: u8
    -unit: hex
    -label: 'chunk_root'
    doc: 'Chunk tree (logical address).'
  - id: log_root
    type: u8
    -unit: hex
    -label: 'log_root'
    doc: 'Log tree (logical address).'
  - id: log_root_transid
    type: u8
    -label: 'log_root_transid'
    doc: 'Transaction of the log tree.'
  - id: total_bytes
    type: u8
    -unit: bytes
    -label: 'total_bytes'
    doc: 'Bytes of all devices.'
  - id: bytes_used
    type: u8
    -unit: bytes
    -label: 'bytes_used'
    doc: 'Bytes in use.'
  - id: root_dir_objectid
    type: u8
    -label: 'root_dir_objectid'
    doc: 'Object id of the root directory, 6.'
  - id: num_devices
    type: u8
    -label: 'num_devices'
    doc: 'Number of devices.'
  - id: sectorsize
    type: u4
    -unit: bytes
    -label: 'sectorsize'
    doc: 'Bytes per sector.'
  - id: nodesize
    type: u4
    -unit: bytes
    -label: 'nodesize'
    doc: 'Bytes per node.'
  - id: leafsize
    type: u4
    -unit: bytes
    -label: 'leafsize'
    doc: 'Bytes per leaf; equals the node size.'
  - id: stripesize
    type: u4
    -unit: bytes
    -label: 'stripesize'
    doc: 'Bytes per stripe.'
  - id: sys_chunk_array_size
    type: u4
    -label: 'sys_chunk_array_size'
    doc: 'Bytes of the system chunk array, at most 2048.'
  - id: chunk_root_generation
    type: u8
    -label: 'chunk_root_generation'
    doc: 'Transaction of the chunk tree.'
  - id: compat_flags
    type: u8
    -unit: hex
    -label: 'compat_flags'
    doc: 'Compatible features.'
  - id: compat_ro_flags
    type: u8
    -unit: hex
    -label: 'compat_ro_flags'
    doc: 'Read-only features.'
  - id: incompat_flags
    type: u8
    -unit: hex
    -label: 'incompat_flags'
    doc: 'Incompatible features.'
  - id: csum_type
    type: u2
    enum: sum
    -label: 'csum_type'
    doc: 'Kind of the checksums.'
  - id: root_level
    type: u1
    -label: 'root_level'
    doc: 'Levels of the tree of trees.'
  - id: chunk_root_level
    type: u1
    -label: 'chunk_root_level'
    doc: 'Levels of the chunk tree.'
  - id: log_root_level
    type: u1
    -label: 'log_root_level'
    doc: 'Levels of the log tree.'
  - id: devid
    type: u8
    -label: 'devid'
    doc: 'Number of this device.'
  - id: dev_total_bytes
    type: u8
    -unit: bytes
    -label: 'total_bytes'
    doc: 'Bytes of this device.'
  - id: dev_bytes_used
    type: u8
    -unit: bytes
    -label: 'bytes_used'
    doc: 'Bytes in use on this device.'
  - id: dev_io_align
    type: u4
    -label: 'io_align'
    doc: 'Alignment.'
  - id: dev_io_width
    type: u4
    -label: 'io_width'
    doc: 'Width.'
  - id: dev_sector_size
    type: u4
    -unit: bytes
    -label: 'sector_size'
    doc: 'Bytes per sector of this device.'
  - id: dev_type
    type: u8
    -label: 'type'
    doc: 'Type.'
  - id: dev_generation
    type: u8
    -label: 'generation'
    doc: 'Transaction of this device.'
  - id: dev_start_offset
    type: u8
    -unit: bytes
    -label: 'start_offset'
    doc: 'First byte used.'
  - id: dev_group
    type: u4
    -label: 'dev_group'
    doc: 'Group.'
  - id: seek_speed
    type: u1
    -label: 'seek_speed'
    doc: 'Hint.'
  - id: bandwidth
    type: u1
    -label: 'bandwidth'
    doc: 'Hint.'
  - id: dev_uuid
    size: 16
    -unit: uuid
    -label: 'uuid'
    doc: 'Identity of this device.'
  - id: dev_fsid
    size: 16
    -unit: uuid
    -label: 'fsid'
    doc: 'Identity of the file system.'
  - id: label
    type: strz
    size: 256
    encoding: UTF-8
    -label: 'label'
    doc: 'Label.'
  - id: cache_generation
    type: u8
    -label: 'cache_generation'
    doc: 'Transaction of the space cache.'
  - id: uuid_tree_generation
    type: u8
    -label: 'uuid_tree_generation'
    doc: 'Transaction of the tree of identities.'
  - id: reserved
    size: 240
    doc: 'Reserved and later fields.'
  - id: sys_chunk_array
    size: 2048
    -label: 'sys_chunk_array'
    doc: 'Keys and chunks of the system, enough to read the chunk tree.'
  - id: super_roots
    size: 672
    -label: 'super_roots'
    doc: 'Older roots.'
  - id: padding
    size-eos: true
    doc: 'Padding.'
enums:
  sum:
    0:
      id: crc_32c
      -label: 'CRC-32C'
    1:
      id: xxhash64
      -label: 'xxHash64'
    2:
      id: sha_256
      -label: 'SHA-256'
    3:
      id: blake2b
      -label: 'BLAKE2b'
