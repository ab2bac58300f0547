meta:
  id: ext_superblock
  title: 'ext superblock'
  endian: le
  -kinds: [superblock]
doc: 'The superblock of ext2, ext3 and ext4: geometry, features and state of the volume. It stands at byte 1024 and at the start of some block groups.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, super block'
seq:
  - id: s_inodes_count
    type: u4
    -label: 's_inodes_count'
    doc: 'Number of inodes: groups times inodes per group.'
  - id: s_blocks_count_lo
    type: u4
    -label: 's_blocks_count_lo'
    doc: 'Number of blocks, low 32 bits.'
  - id: s_r_blocks_count_lo
    type: u4
    -label: 's_r_blocks_count_lo'
    doc: 'Blocks reserved for the administrator, low 32 bits.'
  - id: s_free_blocks_count_lo
    type: u4
    -label: 's_free_blocks_count_lo'
    doc: 'Free blocks (clusters with bigalloc), low 32 bits. Stale in backups.'
  - id: s_free_inodes_count
    type: u4
    -label: 's_free_inodes_count'
    doc: 'Free inodes. Stale in backups.'
  - id: s_first_data_block
    type: u4
    -label: 's_first_data_block'
    doc: 'First data block: 1 with blocks of 1024 bytes, else 0.'
  - id: s_log_block_size
    type: u4
    valid: {max: 6}
    -label: 's_log_block_size'
    doc: 'Block size is 1024 shifted left by this.'
  - id: s_log_cluster_size
    type: u4
    -label: 's_log_cluster_size'
    doc: 'Cluster size is 1024 shifted left by this; equals the block size without bigalloc.'
  - id: s_blocks_per_group
    type: u4
    -label: 's_blocks_per_group'
    doc: 'Blocks of a group: at most eight times the block size.'
  - id: s_clusters_per_group
    type: u4
    -label: 's_clusters_per_group'
    doc: 'Clusters of a group; equals the blocks without bigalloc.'
  - id: s_inodes_per_group
    type: u4
    -label: 's_inodes_per_group'
    doc: 'Inodes of a group: a multiple of 8.'
  - id: s_mtime
    type: u4
    -unit: unix
    -label: 's_mtime'
    doc: 'Last time of mounting.'
  - id: s_wtime
    type: u4
    -unit: unix
    -label: 's_wtime'
    doc: 'Last time of writing.'
  - id: s_mnt_count
    type: u2
    -label: 's_mnt_count'
    doc: 'Mounts since the last check.'
  - id: s_max_mnt_count
    type: u2
    -label: 's_max_mnt_count'
    doc: 'Mounts after which a check is due; 65535 is never.'
  - id: s_magic
    type: u2
    -unit: hex
    valid: 0xEF53
    -label: 's_magic'
    doc: 'EF53 in all copies.'
  - id: s_state
    type: u2
    -unit: flags
    -flags: {0x1: "unmounted cleanly", 0x2: "errors seen", 0x4: "orphans being recovered"}
    -label: 's_state'
    doc: 'State of the volume.'
  - id: s_errors
    type: u2
    enum: on_error
    -label: 's_errors'
    doc: 'What the driver does when it meets an error.'
  - id: s_minor_rev_level
    type: u2
    -label: 's_minor_rev_level'
    doc: 'Minor revision.'
  - id: s_lastcheck
    type: u4
    -unit: unix
    -label: 's_lastcheck'
    doc: 'Time of the last check.'
  - id: s_checkinterval
    type: u4
    -label: 's_checkinterval'
    doc: 'Seconds between checks; 0 is never.'
  - id: s_creator_os
    type: u4
    enum: creator
    -label: 's_creator_os'
    doc: 'System that made the volume.'
  - id: s_rev_level
    type: u4
    -label: 's_rev_level'
    doc: 'Revision: 0 has inodes of 128 bytes, 1 has the fields below.'
  - id: s_def_resuid
    type: u2
    -label: 's_def_resuid'
    doc: 'User who may use reserved blocks.'
  - id: s_def_resgid
    type: u2
    -label: 's_def_resgid'
    doc: 'Group that may use reserved blocks.'
  - id: s_first_ino
    type: u4
    -label: 's_first_ino'
    doc: 'First inode that is not reserved, usually 11.'
  - id: s_inode_size
    type: u2
    -label: 's_inode_size'
    doc: 'Bytes of an inode: a power of two from 128 to the block size.'
  - id: s_block_group_nr
    type: u2
    -label: 's_block_group_nr'
    doc: 'Block group of this copy; 0 in the primary.'
  - id: s_feature_compat
    type: u4
    -unit: flags
    -flags: {0x1: "dir_prealloc", 0x2: "imagic_inodes", 0x4: "has_journal", 0x8: "ext_attr", 0x10: "resize_inode", 0x20: "dir_index", 0x40: "lazy_bg", 0x100: "exclude_bitmap", 0x200: "sparse_super2", 0x400: "fast_commit", 0x800: "stable_inodes", 0x1000: "orphan_file"}
    -label: 's_feature_compat'
    doc: 'Features that an older driver can ignore.'
  - id: s_feature_incompat
    type: u4
    -unit: flags
    -flags: {0x1: "compression", 0x2: "filetype", 0x4: "needs_recovery", 0x8: "journal_dev", 0x10: "meta_bg", 0x40: "extents", 0x80: "64bit", 0x100: "mmp", 0x200: "flex_bg", 0x400: "ea_inode", 0x1000: "dirdata", 0x2000: "csum_seed", 0x4000: "largedir", 0x8000: "inline_data", 0x10000: "encrypt", 0x20000: "casefold"}
    -label: 's_feature_incompat'
    doc: 'Features that forbid mounting by a driver that does not know them.'
  - id: s_feature_ro_compat
    type: u4
    -unit: flags
    -flags: {0x1: "sparse_super", 0x2: "large_file", 0x4: "btree_dir", 0x8: "huge_file", 0x10: "gdt_csum", 0x20: "dir_nlink", 0x40: "extra_isize", 0x80: "has_snapshot", 0x100: "quota", 0x200: "bigalloc", 0x400: "metadata_csum", 0x800: "replica", 0x1000: "readonly", 0x2000: "project", 0x4000: "shared_blocks", 0x8000: "verity", 0x10000: "orphan_present"}
    -label: 's_feature_ro_compat'
    doc: 'Features that forbid writing by a driver that does not know them.'
  - id: s_uuid
    size: 16
    -unit: uuid
    -label: 's_uuid'
    doc: 'Identity of the volume; seed of the metadata checksums.'
  - id: s_volume_name
    type: strz
    size: 16
    encoding: UTF-8
    -label: 's_volume_name'
    doc: 'Label, zero padded.'
  - id: s_last_mounted
    type: strz
    size: 64
    encoding: UTF-8
    -label: 's_last_mounted'
    doc: 'Folder where it was mounted last.'
  - id: s_algorithm_usage_bitmap
    type: u4
    -label: 's_algorithm_usage_bitmap'
    doc: 'For compression; not used.'
  - id: s_prealloc_blocks
    type: u1
    -label: 's_prealloc_blocks'
    doc: 'Blocks to allocate ahead for files.'
  - id: s_prealloc_dir_blocks
    type: u1
    -label: 's_prealloc_dir_blocks'
    doc: 'Blocks to allocate ahead for directories.'
  - id: s_reserved_gdt_blocks
    type: u2
    -label: 's_reserved_gdt_blocks'
    doc: 'Blocks kept after the descriptor table so that it can grow.'
  - id: s_journal_uuid
    size: 16
    -unit: uuid
    -label: 's_journal_uuid'
    doc: 'Identity of an external journal.'
  - id: s_journal_inum
    type: u4
    -link: record
    -format: ext_inode
    -label: 's_journal_inum'
    doc: 'Inode of the journal, usually 8; 0 with an external one.'
  - id: s_journal_dev
    type: u4
    -unit: hex
    -label: 's_journal_dev'
    doc: 'Device number of an external journal.'
  - id: s_last_orphan
    type: u4
    -link: record
    -format: ext_inode
    -label: 's_last_orphan'
    doc: 'First inode of the list of orphans; 0 where there is none.'
  - id: s_hash_seed
    size: 16
    -unit: uuid
    -label: 's_hash_seed'
    doc: 'Seed of the directory hashes.'
  - id: s_def_hash_version
    type: u1
    enum: hash
    -label: 's_def_hash_version'
    doc: 'Hash of new directories.'
  - id: s_jnl_backup_type
    type: u1
    -label: 's_jnl_backup_type'
    doc: 'Whether the copy of the journal inode below is valid.'
  - id: s_desc_size
    type: u2
    -label: 's_desc_size'
    doc: 'Bytes of a group descriptor with the 64bit feature, else 32.'
  - id: s_default_mount_opts
    type: u4
    -unit: hex
    -label: 's_default_mount_opts'
    doc: 'Default mount options.'
  - id: s_first_meta_bg
    type: u4
    -label: 's_first_meta_bg'
    doc: 'First meta block group.'
  - id: s_mkfs_time
    type: u4
    -unit: unix
    -label: 's_mkfs_time'
    doc: 'Time when the volume was made.'
  - id: s_jnl_blocks
    type: u4
    repeat: expr
    repeat-expr: 17
    -unit: hex
    -label: 's_jnl_blocks'
    doc: 'Copy of the journal inode: 15 words of its block map, size high, size low.'
  - id: s_blocks_count_hi
    type: u4
    -label: 's_blocks_count_hi'
    doc: 'Number of blocks, high 32 bits; with 64bit.'
  - id: s_r_blocks_count_hi
    type: u4
    -label: 's_r_blocks_count_hi'
    doc: 'Reserved blocks, high 32 bits.'
  - id: s_free_blocks_count_hi
    type: u4
    -label: 's_free_blocks_count_hi'
    doc: 'Free blocks, high 32 bits.'
  - id: s_min_extra_isize
    type: u2
    -label: 's_min_extra_isize'
    doc: 'Extra bytes that all inodes have.'
  - id: s_want_extra_isize
    type: u2
    -label: 's_want_extra_isize'
    doc: 'Extra bytes that new inodes get, usually 32.'
  - id: s_flags
    type: u4
    -unit: flags
    -flags: {0x1: "signed directory hash", 0x2: "unsigned directory hash", 0x4: "test file system"}
    -label: 's_flags'
    doc: 'Miscellaneous flags.'
  - id: s_raid_stride
    type: u2
    -label: 's_raid_stride'
    doc: 'Blocks read from one disk before the next.'
  - id: s_mmp_interval
    type: u2
    -label: 's_mmp_interval'
    doc: 'Seconds between checks for multiple mounts.'
  - id: s_mmp_block
    type: u8
    -link: cluster
    -label: 's_mmp_block'
    doc: 'Block of multiple mount protection.'
  - id: s_raid_stripe_width
    type: u4
    -label: 's_raid_stripe_width'
    doc: 'Blocks of a stripe over all data disks.'
  - id: s_log_groups_per_flex
    type: u1
    -label: 's_log_groups_per_flex'
    doc: 'Logarithm of the groups of a flexible block group.'
  - id: s_checksum_type
    type: u1
    -label: 's_checksum_type'
    doc: 'Kind of the metadata checksums: 1 is CRC-32C.'
  - id: s_reserved_pad
    type: u2
    -label: 's_reserved_pad'
    doc: 'Padding.'
  - id: s_kbytes_written
    type: u8
    -label: 's_kbytes_written'
    doc: 'KiB written in the life of the volume.'
  - id: s_snapshot
    size: 20
    doc: 'Fields of snapshots; not used.'
  - id: s_error_count
    type: u4
    -label: 's_error_count'
    doc: 'Errors seen; 0 on a healthy volume.'
  - id: s_first_error_time
    type: u4
    -unit: unix
    -label: 's_first_error_time'
    doc: 'Time of the first error.'
  - id: s_first_error_ino
    type: u4
    -label: 's_first_error_ino'
    doc: 'Inode of the first error.'
  - id: s_first_error_block
    type: u8
    -label: 's_first_error_block'
    doc: 'Block of the first error.'
  - id: s_first_error_func
    type: strz
    size: 32
    encoding: ASCII
    -label: 's_first_error_func'
    doc: 'Function that met the first error.'
  - id: s_first_error_line
    type: u4
    -label: 's_first_error_line'
    doc: 'Line of the first error.'
  - id: s_last_error_time
    type: u4
    -unit: unix
    -label: 's_last_error_time'
    doc: 'Time of the last error.'
  - id: s_last_error_ino
    type: u4
    -label: 's_last_error_ino'
    doc: 'Inode of the last error.'
  - id: s_last_error_line
    type: u4
    -label: 's_last_error_line'
    doc: 'Line of the last error.'
  - id: s_last_error_block
    type: u8
    -label: 's_last_error_block'
    doc: 'Block of the last error.'
  - id: s_last_error_func
    type: strz
    size: 32
    encoding: ASCII
    -label: 's_last_error_func'
    doc: 'Function that met the last error.'
  - id: s_mount_opts
    type: strz
    size: 64
    encoding: ASCII
    -label: 's_mount_opts'
    doc: 'Mount options.'
  - id: s_usr_quota_inum
    type: u4
    -label: 's_usr_quota_inum'
    doc: 'Inode of user quotas.'
  - id: s_grp_quota_inum
    type: u4
    -label: 's_grp_quota_inum'
    doc: 'Inode of group quotas.'
  - id: s_overhead_clusters
    type: u4
    -label: 's_overhead_clusters'
    doc: 'Clusters that metadata take.'
  - id: s_backup_bgs
    type: u4
    repeat: expr
    repeat-expr: 2
    -label: 's_backup_bgs'
    doc: 'Groups with backups under sparse_super2; 0 is none.'
  - id: s_encrypt_algos
    size: 4
    -label: 's_encrypt_algos'
    doc: 'Algorithms of encryption in use.'
  - id: s_encrypt_pw_salt
    size: 16
    -label: 's_encrypt_pw_salt'
    doc: 'Salt of the passwords.'
  - id: s_lpf_ino
    type: u4
    -label: 's_lpf_ino'
    doc: 'Inode of lost+found.'
  - id: s_prj_quota_inum
    type: u4
    -label: 's_prj_quota_inum'
    doc: 'Inode of project quotas.'
  - id: s_checksum_seed
    type: u4
    -unit: hex
    -label: 's_checksum_seed'
    doc: 'Seed of the metadata checksums; valid with csum_seed.'
  - id: s_wtime_hi
    type: u1
    -label: 's_wtime_hi'
    doc: 'Bits 32 to 39 of s_wtime.'
  - id: s_mtime_hi
    type: u1
    -label: 's_mtime_hi'
    doc: 'Bits 32 to 39 of s_mtime.'
  - id: s_mkfs_time_hi
    type: u1
    -label: 's_mkfs_time_hi'
    doc: 'Bits 32 to 39 of s_mkfs_time.'
  - id: s_lastcheck_hi
    type: u1
    -label: 's_lastcheck_hi'
    doc: 'Bits 32 to 39 of s_lastcheck.'
  - id: s_first_error_time_hi
    type: u1
    -label: 's_first_error_time_hi'
    doc: 'Bits 32 to 39 of s_first_error_time.'
  - id: s_last_error_time_hi
    type: u1
    -label: 's_last_error_time_hi'
    doc: 'Bits 32 to 39 of s_last_error_time.'
  - id: s_pad
    size: 2
    -label: 's_pad'
    doc: 'Padding.'
  - id: s_encoding
    type: u2
    -label: 's_encoding'
    doc: 'Encoding of names with casefold.'
  - id: s_encoding_flags
    type: u2
    -unit: hex
    -label: 's_encoding_flags'
    doc: 'Flags of the encoding.'
  - id: s_orphan_file_inum
    type: u4
    -label: 's_orphan_file_inum'
    doc: 'Inode of the orphan file.'
  - id: s_reserved
    size: 376
    -label: 's_reserved'
    doc: 'Reserved, zero.'
  - id: s_checksum
    type: u4
    -unit: hex
    -label: 's_checksum'
    doc: 'CRC-32C of the bytes before it, start value all ones, without final inversion; with metadata_csum.'
enums:
  on_error:
    1:
      id: continue_on
      -label: 'Continue on'
    2:
      id: mount_read_only
      -label: 'Mount read-only'
    3:
      id: panic
      -label: 'Panic'
  creator:
    0:
      id: linux
      -label: 'Linux'
    1:
      id: hurd
      -label: 'Hurd'
    2:
      id: masix
      -label: 'Masix'
    3:
      id: freebsd
      -label: 'FreeBSD'
    4:
      id: lites
      -label: 'Lites'
  hash:
    0:
      id: legacy
      -label: 'Legacy'
    1:
      id: half_md4
      -label: 'Half MD4'
    2:
      id: tea
      -label: 'TEA'
    3:
      id: legacy_unsigned
      -label: 'Legacy unsigned'
    4:
      id: half_md4_unsigned
      -label: 'Half MD4 unsigned'
    5:
      id: tea_unsigned
      -label: 'TEA unsigned'
    6:
      id: siphash
      -label: 'SipHash'
