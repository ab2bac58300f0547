meta:
  id: gpt_entries
  title: GPT entry array
  endian: le
  -kinds: [partition map]
doc: The array of partition entries of a GUID partition table.
doc-ref: UEFI 2.10, section 5.3.3
params:
  - id: entry_count
    type: u4
    doc: NumberOfPartitionEntries of the header.
  - id: entry_size
    type: u4
    doc: SizeOfPartitionEntry of the header, bytes.
  - id: sector_size
    type: u8
    doc: Bytes per logical sector of the disk.
seq:
  - id: entries
    type: entry(sector_size)
    size: entry_size
    repeat: expr
    repeat-expr: entry_count
    -label: entries
    doc: One entry for each possible partition; zeros where it is not used.
types:
  entry:
    params:
      - id: sector_size
        type: u8
        doc: Bytes per logical sector of the disk.
    seq:
      - id: type
        size: 16
        -label: PartitionTypeGUID
        -unit: guid
        doc: What the partition is for; zeros where the entry is not used.
        -values:
          00000000-0000-0000-0000-000000000000: "slot not in use"
          c12a7328-f81f-11d2-ba4b-00a0c93ec93b: "boot files for UEFI firmware (FAT)"
          024dee41-33e7-11d3-9d69-0008c781f39f: "holds a whole legacy MBR layout inside"
          21686148-6449-6e6f-744e-656564454649: "raw area for a BIOS boot loader second stage"
          9e1a2d38-c612-4316-aa26-8b49521e5a8b: "PowerPC reference platform boot area"
          d3bfe2de-3daf-11df-ba40-e3a556d89593: "fast-flash hibernation store"
          f4019732-066e-4e12-8273-346c5641494f: "vendor boot area"
          bfbfafe7-a34f-448a-9a5b-6213eb736c22: "vendor boot area"
          e3c9e316-0b5c-4db8-817d-f92df00215ae: "Microsoft reserved space, no file system"
          ebd0a0a2-b9e5-4433-87c0-68b6b72699c7: "Microsoft ordinary volume (NTFS/FAT/exFAT)"
          5808c8aa-7e8f-42e0-85d2-e1e90434cfb3: "LDM database of a dynamic disk"
          af9b60a0-1431-4f62-bc68-3311714a69ad: "LDM data area of a dynamic disk"
          de94bba4-06d1-4d40-a16a-bfd50179d6ac: "Windows repair environment volume"
          e75caf8f-f680-4cee-afa3-b001e56efc2d: "Storage Spaces pool member"
          37affc90-ef7d-4e96-91c3-2d7ae055b174: "IBM parallel file system"
          75894c1e-3aeb-11d3-b7c1-7b03a0000000: "HP-UX data"
          e2a1e728-32e3-11d6-a682-7b03a0000000: "HP-UX service area"
          0fc63daf-8483-4772-8e79-3d69d8477de4: "Linux general file system"
          0657fd6d-a4ab-43c4-84e5-0933c84b4f4f: "Linux swap"
          a19d880f-05fc-4d3b-a006-743f0f84911e: "Linux software RAID member"
          e6d6d379-f507-44c2-a23c-238f2a3df928: "Linux LVM physical volume"
          8da63339-0007-60c0-c436-083ac8230908: "Linux reserved"
          933ac7e1-2eb4-4f13-b844-0e14e2aef915: "Linux /home"
          3b8f8425-20e0-4f3b-907f-1a25a76f98e8: "Linux /srv"
          4d21b016-b534-45c2-a9fb-5c16e091fd2d: "Linux /var"
          7ec6f557-3bc5-4aca-b293-16ef5df639d1: "Linux /var/tmp"
          44479540-f297-41b2-9af7-d131d5f0458a: "Linux root, x86 32-bit"
          4f68bce3-e8cd-4db1-96e7-fbcaf984b709: "Linux root, x86-64"
          69dad710-2ce4-4e3c-b16c-21a1d49abed3: "Linux root, ARM 32-bit"
          b921b045-1df0-41c3-af44-4c6f280d3fae: "Linux root, ARM 64-bit"
          72ec70a6-cf74-40e6-bd49-4bda08e8f224: "Linux root, RISC-V 64-bit"
          8484680c-9521-48c6-9c11-b0720656f69e: "Linux /usr, x86-64"
          2c7357ed-ebd2-46d9-aec1-23d437ec2bf5: "Linux root hash tree, x86-64"
          bc13c2ff-59e6-4262-a352-b275fd6f7172: "Linux additional boot volume"
          773f91ef-66d4-49b5-bd83-d683bf40ad16: "Linux single user home"
          83bd6b9d-7f41-11dc-be0b-001560b84f0f: "FreeBSD boot code"
          516e7cb4-6ecf-11d6-8ff8-00022d09712b: "FreeBSD container with BSD label"
          516e7cb5-6ecf-11d6-8ff8-00022d09712b: "FreeBSD swap"
          516e7cb6-6ecf-11d6-8ff8-00022d09712b: "FreeBSD UFS"
          516e7cb8-6ecf-11d6-8ff8-00022d09712b: "FreeBSD Vinum"
          516e7cba-6ecf-11d6-8ff8-00022d09712b: "FreeBSD ZFS"
          48465300-0000-11aa-aa11-00306543ecac: "Apple HFS/HFS+"
          7c3457ef-0000-11aa-aa11-00306543ecac: "Apple APFS container"
          53746f72-6167-11aa-aa11-00306543ecac: "Apple CoreStorage"
          426f6f74-0000-11aa-aa11-00306543ecac: "Apple boot helper"
          52414944-0000-11aa-aa11-00306543ecac: "Apple RAID member"
          5265636f-7665-11aa-aa11-00306543ecac: "Apple TV system restore area"
          6a82cb45-1dd2-11b2-99a6-080020736631: "Solaris boot"
          6a85cf4d-1dd2-11b2-99a6-080020736631: "Solaris root"
          6a87c46f-1dd2-11b2-99a6-080020736631: "Solaris swap"
          6a898cc3-1dd2-11b2-99a6-080020736631: "ZFS pool member (also Solaris /usr)"
          6a945a3b-1dd2-11b2-99a6-080020736631: "Solaris/ZFS reserved area (8 MiB at end in practice)"
          49f48d32-b10e-11dc-b99b-0019d1879648: "NetBSD swap"
          49f48d5a-b10e-11dc-b99b-0019d1879648: "NetBSD FFS"
          49f48d82-b10e-11dc-b99b-0019d1879648: "NetBSD LFS"
          49f48daa-b10e-11dc-b99b-0019d1879648: "NetBSD RAID member"
          824cc7a0-36a8-11e3-890a-952519ad3f61: "OpenBSD data"
          fe3a2a5d-4f32-41a7-b725-accc3285a309: "ChromeOS kernel"
          3cb8e202-3b7e-47dd-8a3c-7ff2a13cfcec: "ChromeOS root"
          2e0a753d-9e48-43b0-8337-b15192cb1b5e: "ChromeOS reserved"
          aa31e02a-400f-11db-9590-000c2911d1b8: "VMware VMFS"
          9d275380-40ad-11db-bf97-000c2911d1b8: "VMware diagnostic dump"
          9198effc-31c0-11db-8f78-000c2911d1b8: "VMware reserved"
          4fbd7e29-9d25-41b8-afd0-062c0ceff05d: "Ceph object store"
          42465331-3ba3-10f1-802a-4861696b7521: "Haiku BFS"
          cef5a9ad-73bc-4601-89f3-cdeeeee321a1: "QNX 6 file system"
          c91818f9-8025-47af-89d2-f030d7000c2c: "Plan 9"
          7412f7d5-a156-4b13-81dc-867174929325: "ONIE boot (network equipment)"
      - id: unique
        size: 16
        -label: UniquePartitionGUID
        -unit: guid
        doc: Identity of the partition.
      - id: first_lba
        type: u8
        -label: StartingLBA
        -unit: lba
        -link: lba
        doc: First sector of the partition.
      - id: last_lba
        type: u8
        -label: EndingLBA
        -unit: lba
        -link: lba
        doc: Last sector of the partition, itself included.
      - id: attributes
        type: u8
        -label: Attributes
        -unit: flags
        -flags: {0x1: "required by the platform", 0x2: "firmware must not expose it as a block device", 0x4: "bootable for legacy BIOS", 0x1000000000000000: "bit 60: read-only for Microsoft basic data", 0x2000000000000000: "bit 61: shadow copy for Microsoft basic data", 0x4000000000000000: "bit 62: hidden for Microsoft basic data", 0x8000000000000000: "bit 63: no automatic drive letter for Microsoft basic data"}
        doc: Bits 0 to 2 hold for every type, bits 48 to 63 depend on the type, the others are zero.
      - id: name
        size: 72
        type: str
        encoding: UTF-16LE
        -label: PartitionName
        -unit: text
        doc: Name in 36 code units of UTF-16, ended by zero where shorter.
      - id: reserved
        size-eos: true
        -label: Reserved
        -unit: hex
        doc: Rest of an entry larger than 128 bytes; zeros.
    instances:
      sectors:
        value: (last_lba - first_lba + 1).as<u8>
        -label: number of sectors
        -unit: sectors
        doc: Sectors of the partition.
      bytes:
        value: ((last_lba - first_lba + 1) * sector_size).as<u8>
        -label: size
        -unit: bytes
        doc: Size of the partition in bytes.
