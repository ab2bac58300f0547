/** The other volume kinds: XFS, Btrfs, F2FS, swap, optical, LVM2, md and the locked ones. */
package sectorglass.volumes;
