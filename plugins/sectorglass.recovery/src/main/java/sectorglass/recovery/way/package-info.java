/** The way from LBA 0 to a chosen file: the steps of the partition map and of the volume, joined. */
@Export
@Version("0.1.0")
package sectorglass.recovery.way;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
