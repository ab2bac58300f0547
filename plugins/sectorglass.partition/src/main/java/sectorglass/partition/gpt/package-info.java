/**
 * The GUID partition table: two headers, two entry arrays, the protective MBR. Integers are little endian. Source: UEFI 2.10,
 * sections 5.2.3, 5.3.1, 5.3.2 and 5.3.3.
 *
 * <pre>
 *  off  len  field                      rule
 *    0    8  Signature                  gpt.header.signature
 *    8    4  Revision                   gpt.header.revision
 *   12    4  HeaderSize                 gpt.header.size
 *   16    4  HeaderCRC32                gpt.header.crc32
 *   20    4  Reserved                   gpt.header.reserved
 *   24    8  MyLBA                      gpt.header.my-lba
 *   32    8  AlternateLBA               gpt.header.alternate-lba
 *   40   16  First-, LastUsableLBA      gpt.header.usable-range
 *   56   16  DiskGUID                   gpt.copies-equal
 *   72    8  PartitionEntryLBA          gpt.entries.place
 *   80    4  NumberOfPartitionEntries   gpt.entries.count
 *   84    4  SizeOfPartitionEntry       gpt.entries.size
 *   88    4  PartitionEntryArrayCRC32   gpt.entries.crc32
 *   92       Reserved                   gpt.header.reserved
 * </pre>
 */
package sectorglass.partition.gpt;
