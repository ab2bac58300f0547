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
        -label: next
        -unit: dec
        -values: {0: free, 1: never legal, 0xfff7: bad cluster, 0xfff8: end of chain, 0xfff9: end of chain, 0xfffa: end of chain, 0xfffb: end of chain, 0xfffc: end of chain, 0xfffd: end of chain, 0xfffe: end of chain, 0xffff: end of chain}
        -link: cluster
        doc: Next cluster of the chain, 0 for free, or a mark.
    instances:
      cluster:
        value: number
        -label: cluster
        -unit: dec
        -link: cluster
        doc: Cluster whose entry this is.
