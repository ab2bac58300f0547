meta:
  id: fat12_table
  title: FAT12 file allocation table
  endian: le
  bit-endian: le
  -kinds: [file allocation table]
doc: Entries of 12 bits, two in three bytes. The window starts with entry 0.
doc-ref: Microsoft FAT specification (2005-08-30), "FAT Data Structure"
params:
  - id: first_entry
    type: u8
    doc: Number of the first entry in the window; entries 0 and 1 belong to no cluster.
seq:
  - id: entries
    type: entry(first_entry + _index)
    repeat: eos
    -label: entries
    doc: One entry for each cluster.
types:
  entry:
    params:
      - id: number
        type: u8
        doc: Cluster whose entry this is.
    seq:
      - id: next
        type: b12
        enum: mark
        -label: next
        -unit: dec
        -link: cluster
        doc: Next cluster of the chain, 0 for free, or a mark.
    instances:
      cluster:
        value: number
        -label: cluster
        -unit: dec
        -link: cluster
        doc: Cluster whose entry this is.
enums:
  mark:
    0:
      id: free
      -label: free
    1:
      id: never
      -label: never legal
    0xff7:
      id: bad
      -label: bad cluster
    0xff8:
      id: end_0
      -label: end of chain
    0xff9:
      id: end_1
      -label: end of chain
    0xffa:
      id: end_2
      -label: end of chain
    0xffb:
      id: end_3
      -label: end of chain
    0xffc:
      id: end_4
      -label: end of chain
    0xffd:
      id: end_5
      -label: end of chain
    0xffe:
      id: end_6
      -label: end of chain
    0xfff:
      id: end_7
      -label: end of chain
