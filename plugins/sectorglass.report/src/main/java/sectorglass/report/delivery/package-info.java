/** What the lab hands over: the customer's report, the list of all files, the bench's report. */
@Export
@Version("0.1.0")
package sectorglass.report.delivery;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
