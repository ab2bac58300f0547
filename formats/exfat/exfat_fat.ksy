meta:
  id: exfat_fat
  title: exFAT file allocation table
  endian: le
  -kinds: [file allocation table]
doc: >-
  Entries of 32 bits. They count only for files that are not contiguous; a 0 entry says nothing about allocation.
doc-ref: Microsoft exFAT file system specification, revision 1.00, section 4.1
params:
  - id: first_entry
    type: u8
    doc: Number of the first entry in the window; entries 0 and 1 belong to no cluster.
seq:
  - id: entries
    type: entry(first_entry + _index)
    repeat: eos
    -label: FatEntry
    doc: One entry for each cluster.
types:
  entry:
    params:
      - id: number
        type: u8
        doc: Cluster whose entry this is.
    seq:
      - id: next
        type: u4
        -label: next
        -unit: dec
        -values: {0xfffffff7: bad cluster, 0xfffffff8: media descriptor F8, 0xffffffff: end of chain}
        -link: cluster
        doc: Next cluster of the chain, or a mark.
    instances:
      cluster:
        value: number
        -label: cluster
        -unit: dec
        -link: cluster
        doc: Cluster whose entry this is.
