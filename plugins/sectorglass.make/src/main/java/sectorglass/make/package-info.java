/** Writes maps and volumes from a description and a seed, without boot code: for the demo disk, practice and tests. */
@Export
@Version("0.1.0")
package sectorglass.make;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
