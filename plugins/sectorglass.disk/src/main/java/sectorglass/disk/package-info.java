/**
 * The model of a disk: maps, partitions, volumes, structures, files; what a bundle implements to teach the product a map or a file
 * system ({@link sectorglass.disk.MapProvider}, {@link sectorglass.disk.VolumeProvider}); and the {@link sectorglass.disk.Survey}
 * that asks them all and judges whether maps fit the content.
 */
@Export
@Version("0.1.0")
package sectorglass.disk;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
