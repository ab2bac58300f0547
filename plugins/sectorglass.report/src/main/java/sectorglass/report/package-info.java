/** Findings, maps and files as JSON, CSV, HTML and PDF. */
@Export
@Version("0.1.0")
package sectorglass.report;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
