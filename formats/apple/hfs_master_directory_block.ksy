meta:
  id: hfs_master_directory_block
  title: 'HFS master directory block'
  endian: be
  -kinds: [superblock]
doc: 'The header of an HFS volume at byte 1024.'
doc-ref: 'Inside Macintosh: Files, chapter 2 (from memory); libblkid superblock prober for HFS (util-linux)'
seq:
  - id: dr_sig_word
    type: strz
    size: 2
    encoding: ASCII
    -label: 'drSigWord'
    doc: '"BD".'
  - id: dr_cr_date
    type: u4
    -unit: mac-time
    -label: 'drCrDate'
    doc: 'Volume made.'
  - id: dr_ls_mod
    type: u4
    -unit: mac-time
    -label: 'drLsMod'
    doc: 'Last change.'
  - id: dr_atrb
    type: u2
    -unit: flags
    -flags: {0x80: "locked by hardware", 0x100: "unmounted", 0x200: "spared blocks", 0x8000: "locked by software"}
    -label: 'drAtrb'
    doc: 'Attributes.'
  - id: dr_nm_fls
    type: u2
    -label: 'drNmFls'
    doc: 'Files in the root folder.'
  - id: dr_vbm_st
    type: u2
    -label: 'drVBMSt'
    doc: 'First sector of the bitmap, in units of 512 bytes.'
  - id: dr_alloc_ptr
    type: u2
    -label: 'drAllocPtr'
    doc: 'Where the next search for room starts.'
  - id: dr_nm_al_blks
    type: u2
    -label: 'drNmAlBlks'
    doc: 'Allocation blocks.'
  - id: dr_al_blk_siz
    type: u4
    -unit: bytes
    -label: 'drAlBlkSiz'
    doc: 'Bytes per allocation block.'
  - id: dr_clp_siz
    type: u4
    -unit: bytes
    -label: 'drClpSiz'
    doc: 'Clump size.'
  - id: dr_al_bl_st
    type: u2
    -label: 'drAlBlSt'
    doc: 'Sector of the first allocation block, in units of 512 bytes.'
  - id: dr_nxt_cnid
    type: u4
    -label: 'drNxtCNID'
    doc: 'Next catalog id.'
  - id: dr_free_bks
    type: u2
    -label: 'drFreeBks'
    doc: 'Free allocation blocks.'
  - id: dr_vn_len
    type: u1
    -label: 'drVN'
    doc: 'Length of the name.'
  - id: dr_vn
    size: 27
    -label: 'drVN'
    doc: 'Name of the volume.'
  - id: dr_vol_bk_up
    type: u4
    -unit: mac-time
    -label: 'drVolBkUp'
    doc: 'Last backup.'
  - id: dr_v_seq_num
    type: u2
    -label: 'drVSeqNum'
    doc: 'Backup sequence.'
  - id: dr_wr_cnt
    type: u4
    -label: 'drWrCnt'
    doc: 'Write count.'
  - id: dr_xt_clp_siz
    type: u4
    -label: 'drXTClpSiz'
    doc: 'Clump size of the extents file.'
  - id: dr_ct_clp_siz
    type: u4
    -label: 'drCTClpSiz'
    doc: 'Clump size of the catalog.'
  - id: dr_nm_rt_dirs
    type: u2
    -label: 'drNmRtDirs'
    doc: 'Folders in the root folder.'
  - id: dr_fil_cnt
    type: u4
    -label: 'drFilCnt'
    doc: 'Files of the volume.'
  - id: dr_dir_cnt
    type: u4
    -label: 'drDirCnt'
    doc: 'Folders of the volume.'
  - id: dr_fndr_info
    type: u4
    repeat: expr
    repeat-expr: 8
    -unit: hex
    -label: 'drFndrInfo'
    doc: 'Finder information.'
  - id: dr_embed_sig_word
    type: u2
    -unit: hex
    -label: 'drEmbedSigWord'
    doc: 'Signature of an HFS+ volume inside, or 0.'
  - id: dr_embed_start
    type: u2
    -label: 'drEmbedExtent'
    doc: 'First allocation block of the volume inside.'
  - id: dr_embed_count
    type: u2
    -label: 'drEmbedExtent'
    doc: 'Allocation blocks of the volume inside.'
  - id: dr_xt_fl_size
    type: u4
    -unit: bytes
    -label: 'drXTFlSize'
    doc: 'Bytes of the extents file.'
  - id: dr_xt_ext_rec
    type: extent16
    repeat: expr
    repeat-expr: 3
    -label: 'drXTExtRec'
    doc: 'Extents of the extents file.'
  - id: dr_ct_fl_size
    type: u4
    -unit: bytes
    -label: 'drCTFlSize'
    doc: 'Bytes of the catalog.'
  - id: dr_ct_ext_rec
    type: extent16
    repeat: expr
    repeat-expr: 3
    -label: 'drCTExtRec'
    doc: 'Extents of the catalog.'
types:
  extent16:
    doc: 'A run of allocation blocks.'
    seq:
      - id: start_block
        type: u2
        -label: 'xdrStABN'
        doc: 'First allocation block.'
      - id: block_count
        type: u2
        -label: 'xdrNumABlks'
        doc: 'Number of allocation blocks.'
