/** An image that another process is still writing: what is known more at a later look than at an earlier one. */
@Export
@Version("0.1.0")
package sectorglass.recovery.growth;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
