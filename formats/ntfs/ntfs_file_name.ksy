meta:
  id: ntfs_file_name
  title: NTFS file name
  endian: le
  imports:
    - ntfs_reference
doc: |
  Value of a $FILE_NAME attribute, and key of an entry in a folder's index. Sizes and times are copies that go stale in the record; those
  in the index are newer.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct ATTR_FILE_NAME; NTFS-3G include/ntfs-3g/layout.h
seq:
  - id: parent
    type: ntfs_reference
    -label: Folder
    doc: The folder that holds the name.
  - id: created
    type: u8
    -label: Created
    -unit: filetime
    doc: When the file was made.
  - id: modified
    type: u8
    -label: Modified
    -unit: filetime
    doc: When the content was changed.
  - id: changed
    type: u8
    -label: Record changed
    -unit: filetime
    doc: When the record was changed.
  - id: accessed
    type: u8
    -label: Accessed
    -unit: filetime
    doc: When the file was read.
  - id: allocated_size
    type: u8
    -label: Allocated size
    -unit: bytes
    doc: Bytes of the clusters of the unnamed stream, when this copy was made.
  - id: real_size
    type: u8
    -label: Real size
    -unit: bytes
    doc: Bytes of the unnamed stream, when this copy was made.
  - id: file_attributes
    type: u4
    -label: File attributes
    -unit: flags
    -flags: {0x1: read-only, 0x2: hidden, 0x4: system, 0x20: archive, 0x40: device, 0x80: normal, 0x100: temporary, 0x200: sparse, 0x400: reparse point, 0x800: compressed, 0x1000: offline, 0x2000: not indexed, 0x4000: encrypted, 0x10000000: folder, 0x20000000: view index}
    doc: Attributes of the file, with folder and view index as bits of their own.
  - id: extended
    type: u4
    -label: EA size or reparse tag
    -unit: hex
    doc: Size of the extended attributes, or the tag of the reparse point.
  - id: name_length
    type: u1
    -label: Name length
    -unit: dec
    doc: In UTF-16 units.
  - id: name_space
    type: u1
    enum: name_space
    -label: Name space
    doc: Which rules the name follows.
  - id: name
    type: str
    size: name_length * 2
    encoding: UTF-16LE
    -label: Name
    doc: The name as it stands.
enums:
  name_space:
    0:
      id: posix
      -label: POSIX, case-sensitive
    1:
      id: win32
      -label: Win32
    2:
      id: dos
      -label: DOS, 8.3
    3:
      id: win32_and_dos
      -label: Win32 and DOS in one
