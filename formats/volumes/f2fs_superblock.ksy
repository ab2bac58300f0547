meta:
  id: f2fs_superblock
  title: 'F2FS superblock'
  endian: le
  -kinds: [superblock]
doc: 'The superblock at bytes 1024 and 5120.'
doc-ref: 'libblkid superblock prober for F2FS (util-linux)'
seq:
  - id: magic
    type: u4
    -unit: hex
    valid: 0xF2F52010
    -label: 'magic'
    doc: 'F2F52010.'
  - id: major_ver
    type: u2
    -label: 'major_ver'
    doc: 'Major version.'
  - id: minor_ver
    type: u2
    -label: 'minor_ver'
    doc: 'Minor version.'
  - id: log_sectorsize
    type: u4
    -label: 'log_sectorsize'
    doc: 'Logarithm of the sector size.'
  - id: log_sectors_per_block
    type: u4
    -label: 'log_sectors_per_block'
    doc: 'Logarithm of the sectors per block.'
  - id: log_blocksize
    type: u4
    -label: 'log_blocksize'
    doc: 'Logarithm of the block size.'
  - id: log_blocks_per_seg
    type: u4
    -label: 'log_blocks_per_seg'
    doc: 'Logarithm of the blocks per segment.'
  - id: segs_per_sec
    type: u4
    -label: 'segs_per_sec'
    doc: 'Segments per section.'
  - id: secs_per_zone
    type: u4
    -label: 'secs_per_zone'
    doc: 'Sections per zone.'
  - id: checksum_offset
    type: u4
    -label: 'checksum_offset'
    doc: 'Byte of the checksum; 0 where there is none.'
  - id: block_count
    type: u8
    -label: 'block_count'
    doc: 'Blocks.'
  - id: section_count
    type: u4
    -label: 'section_count'
    doc: 'Sections.'
  - id: segment_count
    type: u4
    -label: 'segment_count'
    doc: 'Segments.'
  - id: segment_count_ckpt
    type: u4
    -label: 'segment_count_ckpt'
    doc: 'Segments of checkpoints.'
  - id: segment_count_sit
    type: u4
    -label: 'segment_count_sit'
    doc: 'Segments of the segment information table.'
  - id: segment_count_nat
    type: u4
    -label: 'segment_count_nat'
    doc: 'Segments of the node address table.'
  - id: segment_count_ssa
    type: u4
    -label: 'segment_count_ssa'
    doc: 'Segments of the summary area.'
  - id: segment_count_main
    type: u4
    -label: 'segment_count_main'
    doc: 'Segments of the main area.'
  - id: segment0_blkaddr
    type: u4
    -link: cluster
    -label: 'segment0_blkaddr'
    doc: 'Block of segment 0.'
  - id: cp_blkaddr
    type: u4
    -link: cluster
    -label: 'cp_blkaddr'
    doc: 'Block of the checkpoints.'
  - id: sit_blkaddr
    type: u4
    -link: cluster
    -label: 'sit_blkaddr'
    doc: 'Block of the segment information table.'
  - id: nat_blkaddr
    type: u4
    -link: cluster
    -label: 'nat_blkaddr'
    doc: 'Block of the node address table.'
  - id: ssa_blkaddr
    type: u4
    -link: cluster
    -label: 'ssa_blkaddr'
    doc: 'Block of the summary area.'
  - id: main_blkaddr
    type: u4
    -link: cluster
    -label: 'main_blkaddr'
    doc: 'Block of the main area.'
  - id: root_ino
    type: u4
    -label: 'root_ino'
    doc: 'Inode of the root folder.'
  - id: node_ino
    type: u4
    -label: 'node_ino'
    doc: 'Inode of the node area.'
  - id: meta_ino
    type: u4
    -label: 'meta_ino'
    doc: 'Inode of the metadata.'
  - id: uuid
    size: 16
    -unit: uuid
    -label: 'uuid'
    doc: 'Identity of the volume.'
  - id: volume_name
    size: 1024
    -label: 'volume_name'
    doc: 'Label, UTF-16.'
  - id: rest
    size-eos: true
    doc: 'Fields for which no source is at hand, and the checksum where there is one.'
