meta:
  id: swap_header
  title: 'swap header'
  endian: le
  -kinds: [superblock]
doc: 'Header of a Linux swap volume at byte 1024, version 1, little endian.'
doc-ref: 'libblkid superblock prober for swap (util-linux)'
seq:
  - id: version
    type: u4
    -label: 'version'
    doc: '1.'
  - id: last_page
    type: u4
    -label: 'last_page'
    doc: 'Number of the last page.'
  - id: nr_badpages
    type: u4
    -label: 'nr_badpages'
    doc: 'Bad pages.'
  - id: uuid
    size: 16
    -unit: uuid
    -label: 'sws_uuid'
    doc: 'Identity.'
  - id: volume
    type: strz
    size: 16
    encoding: UTF-8
    -label: 'sws_volume'
    doc: 'Label.'
  - id: padding
    size: 468
    -label: 'padding'
    doc: 'Padding.'
  - id: badpages
    size-eos: true
    -label: 'badpages'
    doc: 'List of bad pages and the rest of the page.'
