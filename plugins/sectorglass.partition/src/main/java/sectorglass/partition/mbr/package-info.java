/**
 * The classic MBR in LBA 0 and the chain of EBRs in an extended container. Integers are little endian and count logical sectors.
 * Sources: UEFI 2.10, section 5.2.1; Linux kernel block/partitions/msdos.c; util-linux include/pt-mbr.h.
 *
 * <pre>
 *  off  len  field                 rule
 *    0  440  boot code             none: any content is legal
 *  440    4  disk signature        mbr.disk-signature
 *  444    2  reserved
 *  446   64  four slots            mbr.active-byte, mbr.active-count, mbr.partition-range, mbr.partition-overlap,
 *                                  mbr.container-count, mbr.chs, mbr.alignment, mbr.unused-slot, mbr.ebr-chain
 *  510    2  55 AA                 mbr.signature
 * </pre>
 */
package sectorglass.partition.mbr;
