/** Places that should agree: copies of one structure on one disk, and dumps that were taken twice. */
@Export
@Version("0.1.0")
package sectorglass.recovery.places;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
