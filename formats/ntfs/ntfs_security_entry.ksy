meta:
  id: ntfs_security_entry
  title: NTFS security descriptor entry
  endian: le
  imports:
    - ntfs_security_descriptor
  -kinds: [security entry]
doc: One entry of the stream $SDS of $Secure. Each block of 256 KiB has a copy right behind it.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct SECURITY_HDR
seq:
  - id: hash
    type: u4
    -label: Hash
    -unit: hex
    doc: Hash of the descriptor.
  - id: security_id
    type: u4
    -label: Security id
    -unit: hex
    doc: The number by which files name it.
  - id: offset
    type: u8
    -label: Offset
    -unit: dec
    doc: Own place in the stream.
  - id: entry_size
    type: u4
    -label: Size
    -unit: bytes
    doc: Bytes of the entry, this header of 20 bytes included.
  - id: descriptor
    size: 'entry_size >= 20 ? entry_size - 20 : 0'
    type: ntfs_security_descriptor
    -label: Descriptor
    doc: The descriptor itself.
