/**
 * What a drive says of itself: IDENTIFY DEVICE data, SMART sectors, and the capacities drives are sold with. Sources: T13/2132-D (ATA/ATAPI
 * command set), Linux include/linux/ata.h, published drive manuals; IDEMA LBA1-02 and LBA1-03; SFF-8447.
 *
 * <pre>
 *  IDENTIFY DEVICE, 512 bytes in little-endian words     rule
 *  word 0          kind of device                        ata.identify.device
 *  words 10 to 46  serial, firmware, model               ata.identify.strings
 *  words 60, 61    sectors, 28 bits                      ata.identify.sector-counts
 *  words 100–103   sectors, 48 bits                      ata.identify.sector-counts, ata.identify.image-sectors
 *  word 255        A5h and checksum                      ata.identify.checksum
 * </pre>
 */
package sectorglass.drive;
