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
        -label: next
        -unit: dec
        -values: {0: free, 1: never legal, 0xff7: bad cluster, 0xff8: end of chain, 0xff9: end of chain, 0xffa: end of chain, 0xffb: end of chain, 0xffc: end of chain, 0xffd: end of chain, 0xffe: end of chain, 0xfff: end of chain}
        -link: cluster
        doc: Next cluster of the chain, 0 for free, or a mark.
    instances:
      cluster:
        value: number
        -label: cluster
        -unit: dec
        -link: cluster
        doc: Cluster whose entry this is.
