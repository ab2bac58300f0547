meta:
  id: exfat_oem_parameters
  title: exFAT OEM parameters
  endian: le
  -kinds: [boot sector]
doc: >-
  Ten parameter structures of 48 bytes, each named by a GUID.
doc-ref: Microsoft exFAT file system specification, revision 1.00, section 3.3
seq:
  - id: parameters
    type: parameter
    repeat: expr
    repeat-expr: 10
    -label: Parameters
    doc: Structures; an all-zero GUID marks an unused one.
  - id: reserved
    size-eos: true
    -label: Reserved
    -unit: hex
    doc: Rest of the sector.
types:
  parameter:
    seq:
      - id: guid
        size: 16
        -label: ParametersGuid
        -unit: guid
        doc: Kind of the parameters; 0A0C7E46-3399-4021-90C8-FA6D389C4BA2 for flash parameters, zero for none.
      - id: custom
        size: 32
        -label: CustomDefined
        -unit: hex
        doc: Meaning depends on the GUID.
