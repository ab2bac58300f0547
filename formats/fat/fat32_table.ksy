meta:
  id: fat32_table
  title: FAT32 file allocation table
  endian: le
  bit-endian: le
  -kinds: [file allocation table]
doc: Entries of 32 bits, of which 28 count.
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
        type: b28
        enum: mark
        -label: next
        -unit: dec
        -link: cluster
        doc: Next cluster of the chain, 0 for free, or a mark.
      - id: reserved
        type: b4
        -label: reserved
        -unit: hex
        doc: Upper four bits, kept as they are and ignored.
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
    0xffffff7:
      id: bad
      -label: bad cluster
    0xffffff8:
      id: end_0
      -label: end of chain
    0xffffff9:
      id: end_1
      -label: end of chain
    0xffffffa:
      id: end_2
      -label: end of chain
    0xffffffb:
      id: end_3
      -label: end of chain
    0xffffffc:
      id: end_4
      -label: end of chain
    0xffffffd:
      id: end_5
      -label: end of chain
    0xffffffe:
      id: end_6
      -label: end of chain
    0xfffffff:
      id: end_7
      -label: end of chain
