meta:
  id: ntfs_standard_information
  title: NTFS standard information
  endian: le
doc: Value of a $STANDARD_INFORMATION attribute, times, attributes and owner of a file. 48 bytes before version 3.0, 72 since.
doc-ref: Linux kernel fs/ntfs3/ntfs.h, struct ATTR_STD_INFO and ATTR_STD_INFO5
seq:
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
  - id: file_attributes
    type: u4
    -label: File attributes
    -unit: flags
    -flags: {0x1: read-only, 0x2: hidden, 0x4: system, 0x20: archive, 0x40: device, 0x80: normal, 0x100: temporary, 0x200: sparse, 0x400: reparse point, 0x800: compressed, 0x1000: offline, 0x2000: not indexed, 0x4000: encrypted}
    doc: Attributes of the file.
  - id: max_versions
    type: u4
    -label: Most versions
    doc: Usually zero.
  - id: version
    type: u4
    -label: Version
    doc: Usually zero.
  - id: class_id
    type: u4
    -label: Class id
    doc: Usually zero.
  - id: owner_id
    type: u4
    if: _io.size >= 72
    -label: Owner id
    doc: For quotas.
  - id: security_id
    type: u4
    if: _io.size >= 72
    -label: Security id
    -unit: hex
    doc: Key of the security descriptor in $Secure; the first one is 100 (hex).
  - id: quota_charged
    type: u8
    if: _io.size >= 72
    -label: Quota charged
    -unit: bytes
    doc: Bytes counted against the owner's quota.
  - id: journal_usn
    type: u8
    if: _io.size >= 72
    -label: Journal position
    -unit: dec
    doc: Place of the last entry about this file in the change journal.
