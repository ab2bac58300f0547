/** Writer of ext4 volumes. Structure facts: Linux kernel documentation, filesystems/ext4; checksums: e2fsprogs 1.47, lib/ext2fs/csum.c. */
package sectorglass.make.ext;
