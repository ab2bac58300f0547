meta:
  id: fat32_fs_info
  title: FAT32 information sector (FSInfo)
  endian: le
  -kinds: [information sector]
doc: Hints about free clusters of a FAT32 volume. They may be stale; the FAT decides.
doc-ref: Microsoft FAT specification (2005-08-30), "FSInfo structure"
seq:
  - id: lead_signature
    size: 4
    -label: FSI_LeadSig
    -unit: ascii
    doc: '"RRaA"'
    valid: "[0x52, 0x52, 0x61, 0x41]"
  - id: reserved_1
    size: 480
    -label: FSI_Reserved1
    -unit: hex
    doc: Reserved, 0.
  - id: structure_signature
    size: 4
    -label: FSI_StrucSig
    -unit: ascii
    doc: '"rrAa"'
    valid: "[0x72, 0x72, 0x41, 0x61]"
  - id: free_count
    type: u4
    -label: FSI_Free_Count
    -unit: dec
    doc: Free clusters when the volume was last written, FFFFFFFF where not known. A hint.
  - id: next_free
    type: u4
    -label: FSI_Nxt_Free
    -unit: dec
    doc: Cluster from which to look for a free one, FFFFFFFF where not known. A hint; some systems store the last one given out.
  - id: reserved_2
    size: 12
    -label: FSI_Reserved2
    -unit: hex
    doc: Reserved, 0.
  - id: trail_signature
    size: 4
    -label: FSI_TrailSig
    -unit: hex
    doc: 00 00 55 AA
    valid: "[0x00, 0x00, 0x55, 0xaa]"
