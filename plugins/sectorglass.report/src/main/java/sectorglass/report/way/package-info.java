/** Ways to files as JSON, as text, and as a worked sheet for print. */
@Export
@Version("0.1.0")
package sectorglass.report.way;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
