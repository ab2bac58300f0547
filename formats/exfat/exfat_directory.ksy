meta:
  id: exfat_directory
  title: exFAT directory entries
  endian: le
  -kinds: [directory, directory entry]
doc: >-
  Entries of 32 bytes. A file is a set of them: file entry, stream extension, file names; volume structures have one entry each. Bit 7 of the type is cleared when an entry is deleted, 00 ends the directory.
doc-ref: Microsoft exFAT file system specification, revision 1.00, sections 6 and 7
seq:
  - id: entries
    type: entry
    size: 32
    repeat: eos
    -label: DirectoryEntry
    doc: Entries in the order of the directory.
types:
  entry:
    seq:
      - id: entry_type
        type: u1
        enum: entry_type
        -label: EntryType
        -unit: hex
        doc: Bits 0 to 4 code, bit 5 benign, bit 6 secondary, bit 7 in use.
      - id: body
        -label: entry
        doc: Fields of the entry, as its type says; a deleted entry keeps those of its kind.
        size: 31
        type:
          switch-on: kind
          cases:
            0x01: allocation_bitmap
            0x02: upcase_table
            0x03: volume_label
            0x05: file
            0x20: volume_guid
            0x40: stream_extension
            0x41: file_name
            0x60: vendor_extension
            0x61: vendor_allocation
            _: unknown
    instances:
      kind:
        value: (entry_type.to_i & 0x7f).as<u1>
        -label: kind
        -unit: hex
        doc: Type without the bit for "in use".
      in_use:
        value: (entry_type.to_i & 0x80) != 0
        -label: InUse
        doc: Whether the entry is in use; false for deleted entries and after the end.
  allocation_bitmap:
    seq:
      - id: flags
        type: u1
        -label: BitmapFlags
        -unit: flags
        -flags: {0x01: second bitmap}
        doc: Which FAT the bitmap belongs to.
      - id: reserved
        size: 18
        -label: Reserved
        -unit: hex
        doc: Reserved, 0.
      - id: first_cluster
        type: u4
        -label: FirstCluster
        -unit: dec
        -link: cluster
        -format: exfat_bitmap
        doc: First cluster of the bitmap.
      - id: data_length
        type: u8
        -label: DataLength
        -unit: bytes
        doc: Length of the bitmap.
  upcase_table:
    seq:
      - id: reserved_1
        size: 3
        -label: Reserved1
        -unit: hex
        doc: Reserved, 0.
      - id: checksum
        type: u4
        -label: TableChecksum
        -unit: hex
        doc: Checksum of the table; E619D30D for the recommended one.
      - id: reserved_2
        size: 12
        -label: Reserved2
        -unit: hex
        doc: Reserved, 0.
      - id: first_cluster
        type: u4
        -label: FirstCluster
        -unit: dec
        -link: cluster
        -format: exfat_upcase_table
        doc: First cluster of the table.
      - id: data_length
        type: u8
        -label: DataLength
        -unit: bytes
        doc: Length of the table; the recommended one has 5836 bytes.
  volume_label:
    seq:
      - id: character_count
        type: u1
        -label: CharacterCount
        -unit: dec
        doc: Characters of the label, 0 to 11.
      - id: label
        type: str
        -label: VolumeLabel
        size: 22
        encoding: UTF-16LE
        doc: The label.
      - id: reserved
        size: 8
        -label: Reserved
        -unit: hex
        doc: Reserved, 0.
  file:
    seq:
      - id: secondary_count
        type: u1
        -label: SecondaryCount
        -unit: dec
        doc: Entries that follow in the set, 2 to 18 and more with vendor entries.
      - id: set_checksum
        type: u2
        -label: SetChecksum
        -unit: hex
        doc: Checksum of all entries of the set, these two bytes left out.
      - id: attributes
        type: u2
        -label: FileAttributes
        -unit: flags
        -flags: {0x0001: read-only, 0x0002: hidden, 0x0004: system, 0x0010: directory, 0x0020: archive}
        doc: Attributes.
      - id: reserved_1
        size: 2
        -label: Reserved1
        -unit: hex
        doc: Reserved, 0.
      - id: created
        type: timestamp
        -label: CreateTimestamp
        doc: Local time of creation.
      - id: modified
        type: timestamp
        -label: LastModifiedTimestamp
        doc: Local time of the last change.
      - id: accessed
        type: timestamp
        -label: LastAccessedTimestamp
        doc: Local time of the last access.
      - id: created_10ms
        type: u1
        -label: Create10msIncrement
        -unit: dec
        doc: Hundredths of a second to add, 0 to 199.
      - id: modified_10ms
        type: u1
        -label: LastModified10msIncrement
        -unit: dec
        doc: Hundredths of a second to add, 0 to 199.
      - id: created_zone
        type: utc_offset
        -label: CreateUtcOffset
        doc: Time zone of the creation.
      - id: modified_zone
        type: utc_offset
        -label: LastModifiedUtcOffset
        doc: Time zone of the last change.
      - id: accessed_zone
        type: utc_offset
        -label: LastAccessedUtcOffset
        doc: Time zone of the last access.
      - id: reserved_2
        size: 7
        -label: Reserved2
        -unit: hex
        doc: Reserved, 0.
  volume_guid:
    seq:
      - id: secondary_count
        type: u1
        -label: SecondaryCount
        -unit: dec
        doc: 0.
      - id: set_checksum
        type: u2
        -label: SetChecksum
        -unit: hex
        doc: Checksum of the entry, these two bytes left out.
      - id: flags
        type: u2
        -label: GeneralPrimaryFlags
        -unit: hex
        doc: 0.
      - id: guid
        size: 16
        -label: VolumeGuid
        -unit: guid
        doc: Identity of the volume.
      - id: reserved
        size: 10
        -label: Reserved
        -unit: hex
        doc: Reserved, 0.
  stream_extension:
    seq:
      - id: flags
        type: u1
        -label: GeneralSecondaryFlags
        -unit: flags
        -flags: {0x01: allocation possible, 0x02: contiguous (NoFatChain)}
        doc: How the content is stored.
      - id: reserved_1
        size: 1
        -label: Reserved1
        -unit: hex
        doc: Reserved, 0.
      - id: name_length
        type: u1
        -label: NameLength
        -unit: dec
        doc: Characters of the name, 1 to 255.
      - id: name_hash
        type: u2
        -label: NameHash
        -unit: hex
        doc: Hash of the name in upper case.
      - id: reserved_2
        size: 2
        -label: Reserved2
        -unit: hex
        doc: Reserved, 0.
      - id: valid_data_length
        type: u8
        -label: ValidDataLength
        -unit: bytes
        doc: Bytes that were written; what follows reads as zero.
      - id: reserved_3
        size: 4
        -label: Reserved3
        -unit: hex
        doc: Reserved, 0.
      - id: first_cluster
        type: u4
        -label: FirstCluster
        -unit: dec
        -link: cluster
        doc: First cluster of the content, 0 for none.
      - id: data_length
        type: u8
        -label: DataLength
        -unit: bytes
        doc: Length of the file, or of the whole allocation of a directory.
  file_name:
    seq:
      - id: flags
        type: u1
        -label: GeneralSecondaryFlags
        -unit: hex
        doc: 0.
      - id: name
        type: str
        -label: FileName
        size: 30
        encoding: UTF-16LE
        doc: 15 characters of the name; 0000 after its end.
  vendor_extension:
    seq:
      - id: flags
        type: u1
        -label: GeneralSecondaryFlags
        -unit: hex
        doc: 0.
      - id: guid
        size: 16
        -label: VendorGuid
        -unit: guid
        doc: Whose entry it is.
      - id: vendor_defined
        size: 14
        -label: VendorDefined
        -unit: hex
        doc: Meaning depends on the GUID.
  vendor_allocation:
    seq:
      - id: flags
        type: u1
        -label: GeneralSecondaryFlags
        -unit: flags
        -flags: {0x01: allocation possible, 0x02: contiguous (NoFatChain)}
        doc: How the content is stored.
      - id: guid
        size: 16
        -label: VendorGuid
        -unit: guid
        doc: Whose entry it is.
      - id: vendor_defined
        size: 2
        -label: VendorDefined
        -unit: hex
        doc: Meaning depends on the GUID.
      - id: first_cluster
        type: u4
        -label: FirstCluster
        -unit: dec
        -link: cluster
        doc: First cluster of the content.
      - id: data_length
        type: u8
        -label: DataLength
        -unit: bytes
        doc: Length of the content.
  unknown:
    seq:
      - id: custom
        size: 31
        -label: CustomDefined
        -unit: hex
        doc: Fields of a type that is not known here, or an unused entry.
  timestamp:
    seq:
      - id: time
        type: u2
        -label: time
        -unit: dos-time
        doc: Local time in steps of two seconds.
      - id: date
        type: u2
        -label: date
        -unit: dos-date
        doc: Local date.
  utc_offset:
    seq:
      - id: value
        type: u1
        -label: UtcOffset
        -unit: hex
        doc: "Bit 7 says that the zone is known; bits 0 to 6 count quarters of an hour, as two's complement."
    instances:
      known:
        value: (value & 0x80) != 0
        -label: OffsetValid
        doc: Whether the zone is known.
      minutes:
        value: "(((value & 0x40) != 0 ? (value & 0x7f) - 128 : (value & 0x7f)) * 15).as<s8>"
        -label: minutes from UTC
        -unit: signed
        doc: Minutes by which local time is ahead of UTC.
enums:
  entry_type:
    0x00:
      id: end
      -label: end of directory
    0x01:
      id: deleted_bitmap
      -label: allocation bitmap, not in use
    0x02:
      id: deleted_upcase
      -label: up-case table, not in use
    0x03:
      id: deleted_label
      -label: volume label, not in use
    0x05:
      id: deleted_file
      -label: file or directory, deleted
    0x20:
      id: deleted_guid
      -label: volume GUID, not in use
    0x40:
      id: deleted_stream
      -label: stream extension, deleted
    0x41:
      id: deleted_name
      -label: file name, deleted
    0x81:
      id: allocation_bitmap
      -label: allocation bitmap
    0x82:
      id: upcase_table
      -label: up-case table
    0x83:
      id: volume_label
      -label: volume label
    0x85:
      id: file
      -label: file or directory
    0xa0:
      id: volume_guid
      -label: volume GUID
    0xa1:
      id: texfat_padding
      -label: TexFAT padding
    0xa2:
      id: ce_access_table
      -label: access control table
    0xc0:
      id: stream_extension
      -label: stream extension
    0xc1:
      id: file_name
      -label: file name
    0xc2:
      id: ce_access
      -label: access control
    0xe0:
      id: vendor_extension
      -label: vendor extension
    0xe1:
      id: vendor_allocation
      -label: vendor allocation
