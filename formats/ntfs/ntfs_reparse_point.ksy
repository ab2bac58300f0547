meta:
  id: ntfs_reparse_point
  title: NTFS reparse point
  endian: le
doc: |
  Value of a $REPARSE_POINT attribute. The system hands the file to a filter or follows a link, so the content may be elsewhere.
doc-ref: Microsoft MS-FSCC, 2.1.2; Linux kernel fs/ntfs3/ntfs.h, struct REPARSE_POINT
seq:
  - id: tag
    type: u4
    enum: tag
    -label: Tag
    -unit: hex
    doc: Which filter owns the file. The highest bit marks tags of Microsoft.
  - id: data_length
    type: u2
    -label: Data length
    -unit: bytes
    doc: Bytes of data.
  - id: reserved
    type: u2
    -label: Reserved
    doc: Zero.
  - id: data
    size-eos: true
    type:
      switch-on: tag
      cases:
        'tag::symbolic_link': symbolic_link
        'tag::mount_point': mount_point
    -label: Data
    doc: What the filter needs.
types:
  symbolic_link:
    seq:
      - id: substitute_offset
        type: u2
        -label: Substitute name offset
        -unit: dec
        doc: From the start of the path buffer.
      - id: substitute_length
        type: u2
        -label: Substitute name length
        -unit: bytes
        doc: In bytes.
      - id: print_offset
        type: u2
        -label: Print name offset
        -unit: dec
        doc: From the start of the path buffer.
      - id: print_length
        type: u2
        -label: Print name length
        -unit: bytes
        doc: In bytes.
      - id: flags
        type: u4
        -label: Flags
        -unit: flags
        -flags: {0x1: relative}
        doc: Whether the path is relative to the link.
    instances:
      substitute_name:
        pos: 12 + substitute_offset
        type: str
        size: substitute_length
        encoding: UTF-16LE
        -label: Substitute name
        doc: Where the link leads.
      print_name:
        pos: 12 + print_offset
        type: str
        size: print_length
        encoding: UTF-16LE
        -label: Print name
        doc: The same for people.
  mount_point:
    seq:
      - id: substitute_offset
        type: u2
        -label: Substitute name offset
        -unit: dec
        doc: From the start of the path buffer.
      - id: substitute_length
        type: u2
        -label: Substitute name length
        -unit: bytes
        doc: In bytes.
      - id: print_offset
        type: u2
        -label: Print name offset
        -unit: dec
        doc: From the start of the path buffer.
      - id: print_length
        type: u2
        -label: Print name length
        -unit: bytes
        doc: In bytes.
    instances:
      substitute_name:
        pos: 8 + substitute_offset
        type: str
        size: substitute_length
        encoding: UTF-16LE
        -label: Substitute name
        doc: Where the mount point leads.
      print_name:
        pos: 8 + print_offset
        type: str
        size: print_length
        encoding: UTF-16LE
        -label: Print name
        doc: The same for people.
enums:
  tag:
    0xa0000003:
      id: mount_point
      -label: mount point
    0xa000000c:
      id: symbolic_link
      -label: symbolic link
    0x80000007:
      id: single_instance
      -label: single instance storage, content elsewhere
    0x80000013:
      id: deduplicated
      -label: deduplicated, content elsewhere
    0x80000014:
      id: nfs
      -label: NFS special file
    0x80000017:
      id: compressed_by_filter
      -label: compressed by a filter, content in a named stream
    0x9000001a:
      id: cloud
      -label: cloud placeholder, content elsewhere
    0x8000001b:
      id: app_exec_link
      -label: link to an application
    0xa000001d:
      id: lx_symbolic_link
      -label: symbolic link of a Linux subsystem
    0x80000023:
      id: af_unix
      -label: Unix socket
    0x80000024:
      id: lx_fifo
      -label: FIFO of a Linux subsystem
    0x80000025:
      id: lx_character
      -label: character device of a Linux subsystem
    0x80000026:
      id: lx_block
      -label: block device of a Linux subsystem
