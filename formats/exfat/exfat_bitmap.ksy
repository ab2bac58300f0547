meta:
  id: exfat_bitmap
  title: exFAT allocation bitmap
  endian: le
  bit-endian: le
  -kinds: [allocation bitmap]
doc: >-
  One bit for each cluster, lowest bit of the first byte for cluster 2; 1 means not available.
doc-ref: Microsoft exFAT file system specification, revision 1.00, section 7.1.5
params:
  - id: first_cluster
    type: u8
    doc: Cluster of the first bit in the window, 2 at the start of the bitmap.
seq:
  - id: octets
    type: octet(first_cluster + _index * 8)
    repeat: eos
    -label: bitmap
    doc: Eight clusters in each byte.
types:
  octet:
    params:
      - id: first
        type: u8
        doc: Cluster of the lowest bit.
    seq:
      - id: in_use
        type: b1
        repeat: expr
        repeat-expr: 8
        -label: in use
        doc: Whether the cluster is not available.
    instances:
      cluster:
        value: first
        -label: first cluster
        -unit: dec
        -link: cluster
        doc: Cluster of the lowest bit.
