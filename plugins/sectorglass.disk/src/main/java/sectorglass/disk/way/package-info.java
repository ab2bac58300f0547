/**
 * The way from the start of a disk to the first byte of a file, as a machine goes it: step by step, each a structure, the fields read there, the
 * arithmetic, and the next address. Map providers explain how a partition is found, volumes provide {@link sectorglass.disk.way.FileWay};
 * {@link sectorglass.disk.way.WayBuilder} puts steps together and stops where bytes were not read.
 */
@Export
@Version("0.1.0")
package sectorglass.disk.way;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
