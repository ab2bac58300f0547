/** Writer of NTFS 3.1 volumes. */
package sectorglass.make.ntfs;
