meta:
  id: ntfs_reference
  title: NTFS file reference
  endian: le
doc: Number of a file record and the sequence number it had. A record that was freed and used again has a higher sequence number.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct MFT_REF
seq:
  - id: record_low
    type: u4
    -label: Record number, low 32 bits
    -unit: dec
    doc: Low part of the record number.
  - id: record_high
    type: u2
    -label: Record number, high 16 bits
    -unit: dec
    doc: High part; zero on all but enormous volumes.
  - id: sequence
    type: u2
    -label: Sequence number
    -unit: dec
    doc: Sequence number of the record that is meant; 0 asks for no check.
instances:
  record:
    value: (record_low.as<u8> + record_high.as<u8> * 4294967296).as<u8>
    -label: Record
    -unit: dec
    -link: record
    -format: ntfs_file_record
    doc: The record that is meant.
