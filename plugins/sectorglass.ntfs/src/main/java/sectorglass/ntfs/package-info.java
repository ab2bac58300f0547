/** NTFS: recognition, structures and rules. */
package sectorglass.ntfs;
