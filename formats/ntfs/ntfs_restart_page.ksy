meta:
  id: ntfs_restart_page
  title: NTFS log restart page
  endian: le
  imports:
    - ntfs_update_sequence
  -kinds: [log restart page]
doc: One of the two pages at the start of $LogFile. It tells where the log goes on and whether the volume was closed cleanly.
doc-ref: NTFS-3G include/ntfs-3g/logfile.h; Linux kernel fs/ntfs3/fslog.c
seq:
  - id: signature
    type: str
    size: 4
    encoding: ASCII
    -label: Signature
    doc: RSTR, or CHKD after a checker ran.
    valid:
      any-of: ['"RSTR"', '"CHKD"']
  - id: update_sequence_offset
    type: u2
    -label: Update sequence offset
    -unit: hex
    doc: From the start of the page.
  - id: update_sequence_count
    type: u2
    -label: Update sequence count
    -unit: dec
    doc: 1 and one for each 512 bytes of the page.
  - id: checker_lsn
    type: u8
    -label: Checker's log sequence number
    -unit: hex
    doc: Set by a checker.
  - id: system_page_size
    type: u4
    -label: System page size
    -unit: bytes
    doc: Distance of the two restart pages.
  - id: log_page_size
    type: u4
    -label: Log page size
    -unit: bytes
    doc: Size of the pages that follow.
  - id: restart_area_offset
    type: u2
    -label: Restart area offset
    -unit: dec
    doc: From the start of the page.
  - id: minor_version
    type: s2
    -label: Minor version
    doc: Of the log.
  - id: major_version
    type: s2
    -label: Major version
    doc: 1 is the classic form, 2 a newer one.
instances:
  update_sequence:
    pos: update_sequence_offset
    type: ntfs_update_sequence(update_sequence_count)
    if: update_sequence_offset >= 30 and update_sequence_offset < 512
    -label: Update sequence
    doc: The mark of this write and the original bytes.
  restart_area:
    pos: restart_area_offset
    type: area
    if: restart_area_offset >= 30 and restart_area_offset < _io.size
    -label: Restart area
    doc: State of the log.
types:
  area:
    seq:
      - id: current_lsn
        type: u8
        -label: Current log sequence number
        -unit: hex
        doc: Last one written when the page was written.
      - id: log_clients
        type: u2
        -label: Log clients
        -unit: dec
        doc: Number of users of the log; 1.
      - id: free_list
        type: u2
        -label: First free client
        -unit: hex
        doc: FFFF for none.
      - id: in_use_list
        type: u2
        -label: First client in use
        -unit: hex
        doc: FFFF for none, so that the volume was closed cleanly.
      - id: flags
        type: u2
        -label: Flags
        -unit: flags
        -flags: {0x1: single page input and output, 0x2: volume is clean}
        doc: State of the volume.
      - id: sequence_bits
        type: u4
        -label: Bits of the sequence number
        -unit: dec
        doc: How log sequence numbers are split.
      - id: area_length
        type: u2
        -label: Length of the area
        -unit: bytes
        doc: With the clients.
      - id: client_offset
        type: u2
        -label: Offset of the clients
        -unit: dec
        doc: From the start of the area.
      - id: file_size
        type: u8
        -label: Log size
        -unit: bytes
        doc: Usable bytes of $LogFile.
