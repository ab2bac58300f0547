meta:
  id: ebr
  title: Extended boot record
  endian: le
  -kinds: [partition map]
doc: One link of the chain of logical partitions in an extended container. The first slot names a partition, the second one the next link.
doc-ref: Linux kernel, block/partitions/msdos.c; util-linux, include/pt-mbr.h
params:
  - id: ebr_lba
    type: u8
    doc: LBA of this sector; starts of partitions count from here.
  - id: container_lba
    type: u8
    doc: First LBA of the extended container; starts of links count from there.
  - id: sector_size
    type: u8
    doc: Bytes per logical sector of the disk.
seq:
  - id: unused
    size: 440
    -label: unused
    -unit: hex
    doc: Usually zeros.
  - id: disk_signature
    type: u4
    -label: disk signature
    -unit: hex
    doc: Not used in an EBR; zero.
  - id: reserved
    type: u2
    -label: reserved
    -unit: hex
    doc: Not used; zero.
  - id: partition
    type: slot(ebr_lba, sector_size)
    -label: partition
    doc: The logical partition, counted from this EBR.
  - id: link
    type: slot(container_lba, sector_size)
    -label: next EBR
    doc: The next EBR, counted from the start of the container; zeros at the end of the chain.
  - id: further
    type: slot(ebr_lba, sector_size)
    repeat: expr
    repeat-expr: 2
    -label: further slots
    doc: Zeros; some systems use them for more partitions.
  - id: signature
    contents: [0x55, 0xaa]
    -label: signature
    -unit: hex
    doc: Marks the sector as a boot record.
  - id: rest
    size-eos: true
    -label: reserved
    -unit: hex
    doc: Rest of a logical sector larger than 512 bytes.
types:
  slot:
    params:
      - id: base
        type: u8
        doc: LBA from which the start of this slot counts.
      - id: sector_size
        type: u8
        doc: Bytes per logical sector of the disk.
    seq:
      - id: active
        type: u1
        -label: BootIndicator
        -unit: hex
        -values: {0x00: "not active", 0x80: "active: boot code starts this one"}
        doc: Active flag; only 00 and 80 are legal. UEFI firmware ignores it.
      - id: first_chs
        size: 3
        -label: StartingCHS
        -unit: chs
        doc: First sector as head, sector and cylinder. The LBA fields govern.
      - id: type
        type: u1
        -label: OSType
        -unit: hex
        -values: {0x00: "slot unused", 0x01: "FAT12", 0x04: "FAT16 below 32 MiB", 0x05: "extended container (CHS)", 0x06: "FAT16 from 32 MiB", 0x07: "NTFS, exFAT, HPFS or other installable FS", 0x08: "AIX", 0x09: "AIX bootable", 0x0a: "OS/2 boot manager", 0x0b: "FAT32 (CHS)", 0x0c: "FAT32 (LBA)", 0x0e: "FAT16 (LBA)", 0x0f: "extended container (LBA)", 0x11: "hidden FAT12", 0x12: "vendor diagnostics", 0x14: "hidden small FAT16", 0x16: "hidden FAT16", 0x17: "hidden NTFS/HPFS", 0x1b: "hidden FAT32", 0x1c: "hidden FAT32 (LBA)", 0x1e: "hidden FAT16 (LBA)", 0x27: "hidden NTFS with OS repair environment", 0x39: "Plan 9", 0x41: "PowerPC PReP boot", 0x42: "LDM dynamic disk (formerly another FS)", 0x4d: "QNX 4, first partition", 0x4e: "QNX 4, second partition", 0x4f: "QNX 4, third partition", 0x50: "boot-time disk overlay driver, first family", 0x51: "boot-time disk overlay driver, first family", 0x53: "boot-time disk overlay driver, first family", 0x54: "boot-time disk overlay driver, first family", 0x55: "same, second family", 0x63: "System V or Hurd", 0x64: "NetWare", 0x65: "NetWare", 0x80: "Minix, old", 0x81: "Minix", 0x82: "Linux swap, or old Solaris", 0x83: "Linux file system", 0x84: "OS/2 hidden, or hibernation", 0x85: "Linux extended container", 0x86: "NTFS fault-tolerant set", 0x87: "NTFS fault-tolerant set", 0x8e: "Linux LVM", 0x9f: "BSD/OS", 0xa0: "laptop hibernation", 0xa5: "FreeBSD slice", 0xa6: "OpenBSD slice", 0xa7: "NeXTSTEP", 0xa8: "Darwin UFS", 0xa9: "NetBSD slice", 0xab: "Darwin boot", 0xaf: "HFS/HFS+", 0xb7: "BSDI file system", 0xb8: "BSDI swap", 0xbe: "Solaris boot", 0xbf: "Solaris", 0xda: "data without file system", 0xde: "server-vendor utility", 0xea: "Linux additional boot volume", 0xeb: "BeOS/Haiku BFS", 0xee: "GPT protective", 0xef: "EFI system partition on MBR", 0xf0: "PA-RISC Linux boot", 0xf2: "secondary DOS", 0xf8: "Arm EBBR firmware protective", 0xfb: "VMware VMFS", 0xfc: "VMware dump/swap", 0xfd: "Linux RAID autodetect", 0xfe: "LANstep and others", 0xff: "Xenix bad block table"}
        doc: What the slot is for; 00 means that it is not used. Never trust it without a look at the content.
      - id: last_chs
        size: 3
        -label: EndingCHS
        -unit: chs
        doc: Last sector as head, sector and cylinder; 1023/254/63 or 1023/255/63 where it does not fit.
      - id: first
        type: u4
        -label: StartingLBA
        -unit: dec
        doc: First sector, counted from the base of the slot.
      - id: sectors
        type: u4
        -label: SizeInLBA
        -unit: sectors
        doc: Number of logical sectors; 0 means that the slot is not used.
    instances:
      first_lba:
        value: (base + first).as<u8>
        -label: first sector on the disk
        -unit: lba
        -link: lba
        doc: First sector counted from the start of the disk.
      last_lba:
        value: (base + first + sectors - 1).as<u8>
        if: sectors != 0
        -label: last sector on the disk
        -unit: lba
        -link: lba
        doc: Last sector counted from the start of the disk.
      bytes:
        value: (sectors.as<u8> * sector_size).as<u8>
        -label: size
        -unit: bytes
        doc: Size of the partition in bytes.
