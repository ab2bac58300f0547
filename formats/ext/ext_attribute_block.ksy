meta:
  id: ext_attribute_block
  title: 'ext extended attribute block'
  endian: le
  -kinds: [attribute-block]
doc: 'Extended attributes that do not fit into the inode; values stand at the end of the block.'
doc-ref: 'Linux kernel documentation, filesystems/ext4, extended attributes'
seq:
  - id: h_magic
    type: u4
    valid: 0xEA020000
    -unit: hex
    -label: 'h_magic'
    doc: 'EA020000.'
  - id: h_refcount
    type: u4
    -label: 'h_refcount'
    doc: 'Inodes that name this block.'
  - id: h_blocks
    type: u4
    -label: 'h_blocks'
    doc: 'Blocks taken; 1.'
  - id: h_hash
    type: u4
    -unit: hex
    -label: 'h_hash'
    doc: 'Hash over all attributes.'
  - id: h_checksum
    type: u4
    -unit: hex
    -label: 'h_checksum'
    doc: 'CRC-32C of block number and block with this field zero, from the seed of the volume; with metadata_csum.'
  - id: h_reserved
    size: 12
    -label: 'h_reserved'
    doc: 'Zero.'
  - id: entries
    type: attribute
    repeat: until
    repeat-until: '_.is_end or _io.size - _io.pos < 20'
    -label: 'ext4_xattr_entry'
    doc: 'The attributes, ended by four zero bytes.'
  - id: values
    size: '_io.size - _io.pos'
    -label: 'Values'
    doc: 'Room, then the values.'
types:
  attribute:
    doc: 'Name and place of an attribute.'
    seq:
      - id: e_name_len
        type: u1
        -label: 'e_name_len'
        doc: 'Bytes of the name.'
      - id: e_name_index
        type: u1
        enum: name_space
        -label: 'e_name_index'
        doc: 'Prefix of the name.'
      - id: e_value_offs
        type: u2
        -label: 'e_value_offs'
        doc: 'Offset of the value in the block.'
      - id: body
        type: attribute_body(e_name_len)
        if: 'not is_end'
        -label: 'Rest of the entry'
        doc: 'Not there in the end mark.'
    instances:
      is_end:
        value: 'e_name_len == 0 and e_name_index.to_i == 0 and e_value_offs == 0'
        doc: 'Four zero bytes end the list.'
  attribute_body:
    doc: 'What follows the first four bytes.'
    params:
      - id: name_length
        type: u1
        doc: 'Bytes of the name.'
    seq:
      - id: e_value_inum
        type: u4
        -link: record
        -format: ext_inode
        -label: 'e_value_inum'
        doc: 'Inode that holds the value; 0 is this block.'
      - id: e_value_size
        type: u4
        -unit: bytes
        -label: 'e_value_size'
        doc: 'Bytes of the value.'
      - id: e_hash
        type: u4
        -unit: hex
        -label: 'e_hash'
        doc: 'Hash of name and value.'
      - id: e_name
        type: str
        size: name_length
        encoding: UTF-8
        -label: 'e_name'
        doc: 'Name without its prefix.'
      - id: padding
        size: '(4 - name_length % 4) % 4'
        -label: 'Padding'
        doc: 'Up to a multiple of four.'
enums:
  name_space:
    0:
      id: none
      -label: 'no prefix'
    1:
      id: user
      -label: 'user.'
    2:
      id: acl_access
      -label: 'system.posix_acl_access'
    3:
      id: acl_default
      -label: 'system.posix_acl_default'
    4:
      id: trusted
      -label: 'trusted.'
    6:
      id: security
      -label: 'security.'
    7:
      id: system
      -label: 'system.'
    8:
      id: richacl
      -label: 'system.richacl'
