meta:
  id: ntfs_runs
  title: NTFS data runs
  endian: le
doc: |
  Where the clusters of a stream lie. Each run is a head byte, a length and the distance from the first cluster of the run before. A run
  without distance is a hole that reads as zero.
doc-ref: NTFS-3G libntfs-3g/runlist.c; Linux-NTFS documentation, Data Runs
seq:
  - id: runs
    type: run(_index)
    -label: Run
    doc: Clusters that lie together.
    repeat: until
    repeat-until: _.head == 0 or _.length_size == 0 or _io.eof
types:
  run:
    params:
      - id: index
        type: s4
    seq:
      - id: head
        type: u1
        -label: Sizes
        -unit: hex
        doc: Low digit, bytes of the length; high digit, bytes of the distance. 00 ends the list.
      - id: length_bytes
        size: length_size
        if: head != 0
        -label: Length
        doc: Number of clusters, little-endian.
      - id: distance_bytes
        size: distance_size
        if: head != 0
        -label: Distance
        doc: Signed distance from the first cluster of the last run that was no hole, little-endian.
    instances:
      length_size:
        value: 'head % 16 <= 8 ? head % 16 : 0'
        -label: Bytes of the length
        doc: Low digit of the head.
      distance_size:
        value: 'head / 16 <= 8 ? head / 16 : 0'
        -label: Bytes of the distance
        doc: High digit of the head.
      clusters:
        value: '(head == 0 or length_size == 0 ? 0 : ((length_bytes[0] & 0xff).as<s8> + (length_size > 1 ? (length_bytes[1] & 0xff).as<s8> * 256 : 0) + (length_size > 2 ? (length_bytes[2] & 0xff).as<s8> * 65536 : 0) + (length_size > 3 ? (length_bytes[3] & 0xff).as<s8> * 16777216 : 0) + (length_size > 4 ? (length_bytes[4] & 0xff).as<s8> * 4294967296 : 0) + (length_size > 5 ? (length_bytes[5] & 0xff).as<s8> * 1099511627776 : 0))).as<s8>'
        -label: Clusters
        -unit: dec
        doc: Length of the run; as far as six bytes reach.
      distance_top:
        value: 'distance_size == 0 ? 0 : distance_bytes[distance_size - 1] & 0xff'
        -label: Highest byte of the distance
        -unit: hex
        doc: Tells the sign.
      distance_unsigned:
        value: '(distance_size == 0 ? 0 : ((distance_bytes[0] & 0xff).as<s8> + (distance_size > 1 ? (distance_bytes[1] & 0xff).as<s8> * 256 : 0) + (distance_size > 2 ? (distance_bytes[2] & 0xff).as<s8> * 65536 : 0) + (distance_size > 3 ? (distance_bytes[3] & 0xff).as<s8> * 16777216 : 0) + (distance_size > 4 ? (distance_bytes[4] & 0xff).as<s8> * 4294967296 : 0) + (distance_size > 5 ? (distance_bytes[5] & 0xff).as<s8> * 1099511627776 : 0))).as<s8>'
        -label: Distance without sign
        -unit: dec
        doc: As far as six bytes reach.
      distance_span:
        value: '(distance_size == 1 ? 256 : distance_size == 2 ? 65536 : distance_size == 3 ? 16777216 : distance_size == 4 ? 4294967296 : distance_size == 5 ? 1099511627776 : 281474976710656).as<s8>'
        -label: Span of the distance
        doc: What is taken away where the distance is negative.
      distance:
        value: '(distance_top >= 128 ? distance_unsigned - distance_span : distance_unsigned).as<s8>'
        -label: Distance, computed
        -unit: signed
        doc: Signed distance in clusters.
      first_cluster:
        value: '(index == 0 ? distance : _parent.runs[index - 1].first_cluster + distance).as<s8>'
        -label: First cluster
        -unit: dec
        -link: cluster
        doc: Cluster of the volume where the run begins; for a hole and for the end mark, that of the run before.
