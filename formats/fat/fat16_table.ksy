meta:
  id: fat16_table
  title: FAT16 file allocation table
  endian: le
  bit-endian: le
  -kinds: [file allocation table]
doc: Entries of 16 bits.
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
        type: u2
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
    0xfff7:
      id: bad
      -label: bad cluster
    0xfff8:
      id: end_0
      -label: end of chain
    0xfff9:
      id: end_1
      -label: end of chain
    0xfffa:
      id: end_2
      -label: end of chain
    0xfffb:
      id: end_3
      -label: end of chain
    0xfffc:
      id: end_4
      -label: end of chain
    0xfffd:
      id: end_5
      -label: end of chain
    0xfffe:
      id: end_6
      -label: end of chain
    0xffff:
      id: end_7
      -label: end of chain
