meta:
  id: hfsplus_volume_header
  title: 'HFS+ volume header'
  endian: be
  -kinds: [superblock]
doc: 'The header of an HFS+ or HFSX volume at byte 1024, and its copy 1024 bytes before the end.'
doc-ref: 'Apple TN1150, Volume Header, by way of hfs_format.h (xnu)'
seq:
  - id: signature
    type: u2
    -unit: hex
    valid: {any-of: [0x482B, 0x4858]}
    -label: 'signature'
    doc: '"H+" or "HX".'
  - id: version
    type: u2
    -label: 'version'
    doc: '4 with H+, 5 with HX.'
  - id: attributes
    type: u4
    -unit: flags
    -flags: {0x80: "locked by hardware", 0x100: "unmounted cleanly", 0x200: "spared blocks", 0x400: "no cache", 0x800: "boot volume inconsistent", 0x1000: "catalog ids reused", 0x2000: "journaled", 0x4000: "inconsistent at run time", 0x8000: "locked by software"}
    -label: 'attributes'
    doc: 'Attributes of the volume.'
  - id: last_mounted_version
    type: strz
    size: 4
    encoding: ASCII
    -label: 'lastMountedVersion'
    doc: 'Who mounted it last.'
  - id: journal_info_block
    type: u4
    -link: cluster
    -label: 'journalInfoBlock'
    doc: 'Allocation block of the journal information.'
  - id: create_date
    type: u4
    -unit: mac-time
    -label: 'createDate'
    doc: 'Volume made, in local time.'
  - id: modify_date
    type: u4
    -unit: mac-time
    -label: 'modifyDate'
    doc: 'Last change.'
  - id: backup_date
    type: u4
    -unit: mac-time
    -label: 'backupDate'
    doc: 'Last backup.'
  - id: checked_date
    type: u4
    -unit: mac-time
    -label: 'checkedDate'
    doc: 'Last check.'
  - id: file_count
    type: u4
    -label: 'fileCount'
    doc: 'Files.'
  - id: folder_count
    type: u4
    -label: 'folderCount'
    doc: 'Folders, the root not counted.'
  - id: block_size
    type: u4
    -unit: bytes
    -label: 'blockSize'
    doc: 'Bytes per allocation block: a power of two, at least 512.'
  - id: total_blocks
    type: u4
    -label: 'totalBlocks'
    doc: 'Allocation blocks.'
  - id: free_blocks
    type: u4
    -label: 'freeBlocks'
    doc: 'Free allocation blocks.'
  - id: next_allocation
    type: u4
    -label: 'nextAllocation'
    doc: 'Where the next search for room starts.'
  - id: rsrc_clump_size
    type: u4
    -unit: bytes
    -label: 'rsrcClumpSize'
    doc: 'Clump size of resource forks.'
  - id: data_clump_size
    type: u4
    -unit: bytes
    -label: 'dataClumpSize'
    doc: 'Clump size of data forks.'
  - id: next_catalog_id
    type: u4
    -label: 'nextCatalogID'
    doc: 'Next catalog id, at least 16.'
  - id: write_count
    type: u4
    -label: 'writeCount'
    doc: 'Write count.'
  - id: encodings_bitmap
    type: u8
    -unit: hex
    -label: 'encodingsBitmap'
    doc: 'Text encodings in use.'
  - id: finder_info
    type: u4
    repeat: expr
    repeat-expr: 8
    -unit: hex
    -label: 'finderInfo'
    doc: 'Finder information; the last two words are the identity of the volume.'
  - id: allocation_file
    type: fork_data
    -label: 'allocationFile'
    doc: 'Bitmap of the allocation blocks.'
  - id: extents_file
    type: fork_data
    -label: 'extentsFile'
    doc: 'Tree of further extents.'
  - id: catalog_file
    type: fork_data
    -label: 'catalogFile'
    doc: 'Tree of files and folders.'
  - id: attributes_file
    type: fork_data
    -label: 'attributesFile'
    doc: 'Tree of attributes.'
  - id: startup_file
    type: fork_data
    -label: 'startupFile'
    doc: 'Startup file.'
types:
  fork_data:
    doc: 'Size and first extents of a fork.'
    seq:
      - id: logical_size
        type: u8
        -unit: bytes
        -label: 'logicalSize'
        doc: 'Bytes.'
      - id: clump_size
        type: u4
        -unit: bytes
        -label: 'clumpSize'
        doc: 'Clump size.'
      - id: total_blocks
        type: u4
        -label: 'totalBlocks'
        doc: 'Allocation blocks of all extents.'
      - id: extents
        type: extent_descriptor
        repeat: expr
        repeat-expr: 8
        -label: 'extents'
        doc: 'The first eight extents.'
  extent_descriptor:
    doc: 'A run of allocation blocks.'
    seq:
      - id: start_block
        type: u4
        -link: cluster
        -label: 'startBlock'
        doc: 'First allocation block.'
      - id: block_count
        type: u4
        -label: 'blockCount'
        doc: 'Number of allocation blocks.'
