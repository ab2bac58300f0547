/** Writer of FAT12, FAT16 and FAT32 volumes. */
package sectorglass.make.fat;
