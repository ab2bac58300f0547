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
        -label: next
        -unit: dec
        -values: {0: free, 1: never legal, 0xffffff7: bad cluster, 0xffffff8: end of chain, 0xffffff9: end of chain, 0xffffffa: end of chain, 0xffffffb: end of chain, 0xffffffc: end of chain, 0xffffffd: end of chain, 0xffffffe: end of chain, 0xfffffff: end of chain}
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
