/** ext2, ext3 and ext4: recognition, structures and rules. */
package sectorglass.ext;
