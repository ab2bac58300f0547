meta:
  id: ext_directory_block
  title: 'ext directory block'
  endian: le
  -kinds: [directory-block]
doc: 'Entries of a directory, one after the other to the end of the block.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, directory entries'
seq:
  - id: entries
    type: dir_entry
    repeat: eos
    -label: 'ext4_dir_entry_2'
    doc: 'The entries.'
types:
  dir_entry:
    doc: 'A name and its inode.'
    seq:
      - id: inode
        type: u4
        -link: record
        -format: ext_inode
        -label: 'inode'
        doc: 'Inode; 0 is an entry not in use.'
      - id: rec_len
        type: u2
        -label: 'rec_len'
        doc: 'Bytes to the next entry.'
      - id: name_len
        type: u1
        -label: 'name_len'
        doc: 'Bytes of the name.'
      - id: file_type
        type: u1
        enum: file_kind
        -label: 'file_type'
        doc: 'Type of the file; DE marks the checksum at the end of the block.'
      - id: body
        type: 'dir_body(name_len, file_type)'
        size: '(rec_len < 8 ? _io.size - _io.pos : rec_len - 8)'
        doc: 'Name and slack.'
  dir_body:
    doc: 'What follows the eight bytes of an entry.'
    params:
      - id: name_length
        type: u1
        doc: 'Bytes of the name.'
      - id: kind
        type: u1
        enum: file_kind
        doc: 'Type of the file.'
    seq:
      - id: det_checksum
        type: u4
        if: 'kind == file_kind::checksum_of_the_block'
        -unit: hex
        -label: 'det_checksum'
        doc: 'CRC-32C of the block up to this entry, from the inode''s seed.'
      - id: name
        size: name_length
        type: str
        encoding: UTF-8
        if: 'kind != file_kind::checksum_of_the_block'
        -label: 'name'
        doc: 'The name, without terminating zero.'
      - id: slack
        size-eos: true
        doc: 'Room up to the next entry; may hold remnants of deleted entries.'
enums:
  file_kind:
    0:
      id: unknown
      -label: 'Unknown'
    1:
      id: regular_file
      -label: 'Regular file'
    2:
      id: directory
      -label: 'Directory'
    3:
      id: character_device
      -label: 'Character device'
    4:
      id: block_device
      -label: 'Block device'
    5:
      id: fifo
      -label: 'FIFO'
    6:
      id: socket
      -label: 'Socket'
    7:
      id: symbolic_link
      -label: 'Symbolic link'
    0xDE:
      id: checksum_of_the_block
      -label: 'Checksum of the block'
