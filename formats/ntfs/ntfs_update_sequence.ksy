meta:
  id: ntfs_update_sequence
  title: NTFS update sequence
  endian: le
doc: |
  Guard against torn writes. The number stands at the end of each 512 bytes of the block on disk; the two bytes that belong there are
  kept here. A block whose marks differ was written only in part.
doc-ref: NTFS-3G libntfs-3g/mst.c and include/ntfs-3g/layout.h
params:
  - id: count
    type: u2
seq:
  - id: number
    type: u2
    -label: Update sequence number
    -unit: hex
    doc: Must stand in the last two bytes of each 512 bytes on disk.
  - id: originals
    type: u2
    -label: Original bytes
    -unit: hex
    doc: The two bytes that belong at the end of each 512 bytes, in order.
    repeat: expr
    repeat-expr: 'count >= 1 and count <= 129 ? count - 1 : 0'
