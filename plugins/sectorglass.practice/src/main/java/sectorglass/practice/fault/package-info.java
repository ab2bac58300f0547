/**
 * The faults that a practice disk may get: each knows where it can be planted, the check that has to find it, and how the checksums above it
 * are made to hold again, so that one cause is one fault. Sources of offsets: UEFI 2.10, sections 5.2 and 5.3; Linux kernel
 * block/partitions/msdos.c, fs/ntfs3/ntfs.h and the documentation of ext4; the Microsoft specifications of FAT and exFAT.
 */
package sectorglass.practice.fault;
