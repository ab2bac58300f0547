/**
 * Corrections of MBR, EBR and GPT from what is left of the disk. Which fields are determined: UEFI 2.10, sections 5.2 and 5.3; Linux
 * kernel block/partitions/msdos.c. What is not determined stays as it stands and is named.
 */
package sectorglass.partition.repair;
