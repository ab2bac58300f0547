/**
 * NTFS: recognition, structures, files, allocation, reading order and rules. Nothing here is exported; the product meets it through the
 * provider interfaces of {@code sectorglass.disk}, {@code sectorglass.verify} and {@code sectorglass.decode}.
 *
 * <p>Two ways lead to the same bytes. Shown structures go through the specs in {@code formats/ntfs}, with the update sequence put over the
 * stored bytes ({@link sectorglass.ntfs.FixUp}). Bulk work goes through {@link sectorglass.ntfs.FixedBlock} and
 * {@link sectorglass.ntfs.RecordView} over byte arrays, without objects per record; a test holds the one to the other.
 *
 * <pre>
 *  boot sector --> Geometry --> FileTable ($MFT: runs, records) --> RecordView   one record, cursor over attributes
 *                                                              --> FileRecord   one file over all its records
 *                                                              --> TreeScan     the folder tree
 *                                                              --> NtfsChecks   all rules
 * </pre>
 *
 * <p>Sources: Linux kernel fs/ntfs3; NTFS-3G layout.h, bootsect.c, mst.c, runlist.c, attrib.c, index.c; Microsoft, Master File Table
 * (developer notes); Microsoft MS-FSCC, MS-XCA, MS-DTYP. Not covered: the content of $LogFile beyond its restart pages, files compressed
 * by filters, and decryption.
 */
package sectorglass.ntfs;
