/** Fuzz targets of sets of disks. */
package sectorglass.volumes;
