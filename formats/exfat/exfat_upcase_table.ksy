meta:
  id: exfat_upcase_table
  title: exFAT up-case table
  endian: le
  -kinds: [up-case table]
doc: >-
  The upper-case form of each character in order; FFFF and a count stand for a run of characters that map to themselves.
doc-ref: Microsoft exFAT file system specification, revision 1.00, section 7.2.5
seq:
  - id: mappings
    type: u2
    repeat: eos
    -label: Uppercased code points
    -unit: hex
    doc: Upper-case character, or FFFF followed by a count.
