/** Endless tests of the NTFS readers, in their package: bytes and changed volumes that a fuzzer thinks of. */
package sectorglass.ntfs;
