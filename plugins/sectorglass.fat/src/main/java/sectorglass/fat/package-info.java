/** FAT12, FAT16 and FAT32: recognition, structures and rules. */
package sectorglass.fat;
