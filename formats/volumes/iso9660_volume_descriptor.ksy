meta:
  id: iso9660_volume_descriptor
  title: 'ISO 9660 volume descriptor'
  endian: le
  -kinds: [volume-descriptor]
doc: 'Primary or supplementary volume descriptor; many numbers stand in both byte orders.'
doc-ref: 'ECMA-119, 8.4 and 8.5'
seq:
  - id: type
    type: u1
    enum: kind
    -label: 'Volume Descriptor Type'
    doc: 'Kind of the descriptor.'
  - id: id
    type: strz
    size: 5
    encoding: ASCII
    -label: 'Standard Identifier'
    doc: '"CD001".'
  - id: version
    type: u1
    -label: 'Volume Descriptor Version'
    doc: '1.'
  - id: flags
    type: u1
    -label: 'Volume Flags'
    doc: 'Flags of a supplementary descriptor.'
  - id: system_id
    type: strz
    size: 32
    encoding: ASCII
    -label: 'System Identifier'
    doc: 'System.'
  - id: volume_id
    size: 32
    -label: 'Volume Identifier'
    doc: 'Name of the volume; with Joliet in UCS-2.'
  - id: unused1
    size: 8
    doc: 'Not used.'
  - id: volume_space_size_le
    type: u4le
    -label: 'Volume Space Size'
    doc: 'Blocks, little endian.'
  - id: volume_space_size_be
    type: u4be
    -label: 'Volume Space Size'
    doc: 'Blocks, big endian.'
  - id: escape_sequences
    size: 32
    -label: 'Escape Sequences'
    doc: 'Character sets of a supplementary descriptor.'
  - id: volume_set_size_le
    type: u2le
    -label: 'Volume Set Size'
    doc: 'Volumes of the set, little endian.'
  - id: volume_set_size_be
    type: u2be
    -label: 'Volume Set Size'
    doc: 'Volumes of the set, big endian.'
  - id: volume_sequence_number_le
    type: u2le
    -label: 'Volume Sequence Number'
    doc: 'Number in the set, little endian.'
  - id: volume_sequence_number_be
    type: u2be
    -label: 'Volume Sequence Number'
    doc: 'Number in the set, big endian.'
  - id: logical_block_size_le
    type: u2le
    -unit: bytes
    -label: 'Logical Block Size'
    doc: 'Bytes per block, little endian.'
  - id: logical_block_size_be
    type: u2be
    -unit: bytes
    -label: 'Logical Block Size'
    doc: 'Bytes per block, big endian.'
  - id: path_table_size_le
    type: u4le
    -unit: bytes
    -label: 'Path Table Size'
    doc: 'Bytes of the path table, little endian.'
  - id: path_table_size_be
    type: u4be
    -unit: bytes
    -label: 'Path Table Size'
    doc: 'Bytes of the path table, big endian.'
  - id: type_l_path_table
    type: u4le
    -link: cluster
    -label: 'Location of Type L Path Table'
    doc: 'Block of the little endian path table.'
  - id: optional_type_l_path_table
    type: u4le
    -link: cluster
    -label: 'Location of Optional Type L Path Table'
    doc: 'Block of its copy.'
  - id: type_m_path_table
    type: u4be
    -link: cluster
    -label: 'Location of Type M Path Table'
    doc: 'Block of the big endian path table.'
  - id: optional_type_m_path_table
    type: u4be
    -link: cluster
    -label: 'Location of Optional Type M Path Table'
    doc: 'Block of its copy.'
  - id: root_record_length
    type: u1
    -label: 'Directory Record for Root Directory'
    doc: 'Bytes of the root record, 34.'
  - id: root_extended_length
    type: u1
    -label: 'Extended Attribute Record Length'
    doc: 'Blocks of extended attributes.'
  - id: root_extent_le
    type: u4le
    -link: cluster
    -label: 'Location of Extent'
    doc: 'Block of the root directory, little endian.'
  - id: root_extent_be
    type: u4be
    -link: cluster
    -label: 'Location of Extent'
    doc: 'Block of the root directory, big endian.'
  - id: root_length_le
    type: u4le
    -unit: bytes
    -label: 'Data Length'
    doc: 'Bytes of the root directory, little endian.'
  - id: root_length_be
    type: u4be
    -unit: bytes
    -label: 'Data Length'
    doc: 'Bytes of the root directory, big endian.'
  - id: root_rest
    size: 16
    doc: 'Date, flags and name of the root record.'
  - id: volume_set_id
    type: strz
    size: 128
    encoding: ASCII
    -label: 'Volume Set Identifier'
    doc: 'Name of the set.'
  - id: publisher_id
    type: strz
    size: 128
    encoding: ASCII
    -label: 'Publisher Identifier'
    doc: 'Publisher.'
  - id: data_preparer_id
    type: strz
    size: 128
    encoding: ASCII
    -label: 'Data Preparer Identifier'
    doc: 'Who prepared the data.'
  - id: application_id
    type: strz
    size: 128
    encoding: ASCII
    -label: 'Application Identifier'
    doc: 'Program that made it.'
  - id: copyright_file_id
    type: strz
    size: 37
    encoding: ASCII
    -label: 'Copyright File Identifier'
    doc: 'File with copyright.'
  - id: abstract_file_id
    type: strz
    size: 37
    encoding: ASCII
    -label: 'Abstract File Identifier'
    doc: 'File with an abstract.'
  - id: bibliographic_file_id
    type: strz
    size: 37
    encoding: ASCII
    -label: 'Bibliographic File Identifier'
    doc: 'File with a bibliography.'
  - id: creation_date
    type: strz
    size: 16
    encoding: ASCII
    -label: 'Volume Creation Date and Time'
    doc: 'Made: year, month, day, hour, minute, second, hundredths.'
  - id: creation_zone
    type: s1
    -unit: signed
    -label: 'Volume Creation Date and Time'
    doc: 'Zone in quarters of an hour.'
  - id: modification_date
    type: strz
    size: 16
    encoding: ASCII
    -label: 'Volume Modification Date and Time'
    doc: 'Changed.'
  - id: modification_zone
    type: s1
    -unit: signed
    -label: 'Volume Modification Date and Time'
    doc: 'Zone in quarters of an hour.'
  - id: expiration_date
    type: strz
    size: 16
    encoding: ASCII
    -label: 'Volume Expiration Date and Time'
    doc: 'Obsolete from.'
  - id: expiration_zone
    type: s1
    -unit: signed
    -label: 'Volume Expiration Date and Time'
    doc: 'Zone in quarters of an hour.'
  - id: effective_date
    type: strz
    size: 16
    encoding: ASCII
    -label: 'Volume Effective Date and Time'
    doc: 'Usable from.'
  - id: effective_zone
    type: s1
    -unit: signed
    -label: 'Volume Effective Date and Time'
    doc: 'Zone in quarters of an hour.'
  - id: file_structure_version
    type: u1
    -label: 'File Structure Version'
    doc: '1.'
  - id: rest
    size-eos: true
    doc: 'For applications, and reserved.'
enums:
  kind:
    0:
      id: boot_record
      -label: 'Boot record'
    1:
      id: primary
      -label: 'Primary'
    2:
      id: supplementary
      -label: 'Supplementary'
    3:
      id: partition
      -label: 'Partition'
    255:
      id: end_of_the_set
      -label: 'End of the set'
