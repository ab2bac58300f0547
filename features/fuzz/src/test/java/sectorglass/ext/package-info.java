/** Fuzz targets of the ext bundle. */
package sectorglass.ext;
