meta:
  id: xfs_superblock
  title: 'XFS superblock'
  endian: be
  -kinds: [superblock]
doc: 'First sector of every allocation group: geometry, label and counters. Big endian, the checksum little endian.'
doc-ref: 'libblkid superblock prober for XFS (util-linux)'
seq:
  - id: sb_magicnum
    type: strz
    size: 4
    encoding: ASCII
    -label: 'sb_magicnum'
    doc: '"XFSB".'
  - id: sb_blocksize
    type: u4
    -unit: bytes
    -label: 'sb_blocksize'
    doc: 'Bytes per block: a power of two from 512 to 65536.'
  - id: sb_dblocks
    type: u8
    -label: 'sb_dblocks'
    doc: 'Data blocks.'
  - id: sb_rblocks
    type: u8
    -label: 'sb_rblocks'
    doc: 'Realtime blocks.'
  - id: sb_rextents
    type: u8
    -label: 'sb_rextents'
    doc: 'Realtime extents.'
  - id: sb_uuid
    size: 16
    -unit: uuid
    -label: 'sb_uuid'
    doc: 'Identity of the volume.'
  - id: sb_logstart
    type: u8
    -label: 'sb_logstart'
    doc: 'First block of the log; 0 with an external log.'
  - id: sb_rootino
    type: u8
    -label: 'sb_rootino'
    doc: 'Inode of the root folder.'
  - id: sb_rbmino
    type: u8
    -label: 'sb_rbmino'
    doc: 'Inode of the realtime bitmap.'
  - id: sb_rsumino
    type: u8
    -label: 'sb_rsumino'
    doc: 'Inode of the realtime summary.'
  - id: sb_rextsize
    type: u4
    -label: 'sb_rextsize'
    doc: 'Blocks of a realtime extent.'
  - id: sb_agblocks
    type: u4
    -label: 'sb_agblocks'
    doc: 'Blocks of an allocation group.'
  - id: sb_agcount
    type: u4
    -label: 'sb_agcount'
    doc: 'Number of allocation groups.'
  - id: sb_rbmblocks
    type: u4
    -label: 'sb_rbmblocks'
    doc: 'Blocks of the realtime bitmap.'
  - id: sb_logblocks
    type: u4
    -label: 'sb_logblocks'
    doc: 'Blocks of the log.'
  - id: sb_versionnum
    type: u2
    -unit: hex
    -label: 'sb_versionnum'
    doc: 'Version in the low four bits: 5 has checksums.'
  - id: sb_sectsize
    type: u2
    -unit: bytes
    -label: 'sb_sectsize'
    doc: 'Bytes per sector.'
  - id: sb_inodesize
    type: u2
    -unit: bytes
    -label: 'sb_inodesize'
    doc: 'Bytes per inode.'
  - id: sb_inopblock
    type: u2
    -label: 'sb_inopblock'
    doc: 'Inodes per block.'
  - id: sb_fname
    type: strz
    size: 12
    encoding: UTF-8
    -label: 'sb_fname'
    doc: 'Label.'
  - id: sb_blocklog
    type: u1
    -label: 'sb_blocklog'
    doc: 'Logarithm of the block size.'
  - id: sb_sectlog
    type: u1
    -label: 'sb_sectlog'
    doc: 'Logarithm of the sector size.'
  - id: sb_inodelog
    type: u1
    -label: 'sb_inodelog'
    doc: 'Logarithm of the inode size.'
  - id: sb_inopblog
    type: u1
    -label: 'sb_inopblog'
    doc: 'Logarithm of the inodes per block.'
  - id: sb_agblklog
    type: u1
    -label: 'sb_agblklog'
    doc: 'Logarithm of the blocks per group, rounded up.'
  - id: sb_rextslog
    type: u1
    -label: 'sb_rextslog'
    doc: 'Logarithm of the realtime extents.'
  - id: sb_inprogress
    type: u1
    -label: 'sb_inprogress'
    doc: 'In the primary: making of the volume has not finished. 1 is normal in the others.'
  - id: sb_imax_pct
    type: u1
    -unit: percent
    -label: 'sb_imax_pct'
    doc: 'Most percent of the room for inodes.'
  - id: sb_icount
    type: u8
    -label: 'sb_icount'
    doc: 'Inodes allocated; exact after a clean unmount.'
  - id: sb_ifree
    type: u8
    -label: 'sb_ifree'
    doc: 'Free inodes.'
  - id: sb_fdblocks
    type: u8
    -label: 'sb_fdblocks'
    doc: 'Free data blocks.'
  - id: sb_frextents
    type: u8
    -label: 'sb_frextents'
    doc: 'Free realtime extents.'
  - id: sb_uquotino
    type: u8
    -label: 'sb_uquotino'
    doc: 'Inode of user quotas.'
  - id: sb_gquotino
    type: u8
    -label: 'sb_gquotino'
    doc: 'Inode of group quotas.'
  - id: sb_qflags
    type: u2
    -unit: hex
    -label: 'sb_qflags'
    doc: 'Quota flags.'
  - id: sb_flags
    type: u1
    -unit: hex
    -label: 'sb_flags'
    doc: 'Flags.'
  - id: sb_shared_vn
    type: u1
    -label: 'sb_shared_vn'
    doc: 'Shared version.'
  - id: sb_inoalignmt
    type: u4
    -label: 'sb_inoalignmt'
    doc: 'Alignment of inode chunks, in blocks.'
  - id: sb_unit
    type: u4
    -label: 'sb_unit'
    doc: 'Stripe unit, in blocks.'
  - id: sb_width
    type: u4
    -label: 'sb_width'
    doc: 'Stripe width, in blocks.'
  - id: sb_dirblklog
    type: u1
    -label: 'sb_dirblklog'
    doc: 'Logarithm of the directory block over the block.'
  - id: sb_logsectlog
    type: u1
    -label: 'sb_logsectlog'
    doc: 'Logarithm of the log''s sector size.'
  - id: sb_logsectsize
    type: u2
    -label: 'sb_logsectsize'
    doc: 'Bytes per sector of the log.'
  - id: sb_logsunit
    type: u4
    -label: 'sb_logsunit'
    doc: 'Stripe unit of the log.'
  - id: sb_features2
    type: u4
    -unit: hex
    -label: 'sb_features2'
    doc: 'More features.'
  - id: sb_bad_features2
    type: u4
    -unit: hex
    -label: 'sb_bad_features2'
    doc: 'The same once more.'
  - id: sb_features_compat
    type: u4
    -unit: hex
    -label: 'sb_features_compat'
    doc: 'Compatible features of version 5.'
  - id: sb_features_ro_compat
    type: u4
    -unit: hex
    -label: 'sb_features_ro_compat'
    doc: 'Read-only features of version 5.'
  - id: sb_features_incompat
    type: u4
    -unit: hex
    -label: 'sb_features_incompat'
    doc: 'Incompatible features of version 5.'
  - id: sb_features_log_incompat
    type: u4
    -unit: hex
    -label: 'sb_features_log_incompat'
    doc: 'Incompatible features of the log.'
  - id: sb_crc
    type: u4le
    -unit: hex
    -label: 'sb_crc'
    doc: 'CRC-32C of the sector with this field zero; little endian.'
  - id: sb_spino_align
    type: u4
    -label: 'sb_spino_align'
    doc: 'Alignment of sparse inode chunks.'
  - id: sb_pquotino
    type: u8
    -label: 'sb_pquotino'
    doc: 'Inode of project quotas.'
  - id: sb_lsn
    type: u8
    -unit: hex
    -label: 'sb_lsn'
    doc: 'Last log sequence.'
  - id: sb_meta_uuid
    size: 16
    -unit: uuid
    -label: 'sb_meta_uuid'
    doc: 'Identity in metadata where it differs.'
